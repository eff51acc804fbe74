//! Costs in words: what nobody knows the price of is no 0.

use crate::balance::Cost;
use crate::service::{DrinkCost, Shopping};
use crate::units::{capital, money, number};

/// What the pours with a price cost, and how many those are: "1.03 EUR", "at least 1.03 EUR, 2 of 8
/// have prices", "no prices".
pub fn cost_text(cost: &Cost, currency: &str) -> String {
    let priced = cost.of.saturating_sub(cost.unpriced);
    at_least((cost.amount, priced, cost.of), currency).unwrap_or_else(|| "no prices".to_owned())
}

/// A sum of which so many of so many parts are known; `None` where none is. What nobody knows is no 0:
/// the sum is then "at least" that.
pub(super) fn at_least((sum, known, of): (f64, usize, usize), currency: &str) -> Option<String> {
    let sum = money(sum, currency);
    match known {
        0 => None,
        _ if known >= of => Some(sum),
        1 => Some(format!("at least {sum}, 1 of {of} has a price")),
        _ => Some(format!("at least {sum}, {known} of {of} have prices")),
    }
}

/// Cost of a drink and its share of the price, a line each; `by_name` tells what has no price.
pub fn cost_lines(cost: &DrinkCost, currency: &str, by_name: bool) -> Vec<String> {
    if !cost.is_known() {
        return vec!["No prices: what the drink costs is not known.".to_owned()];
    }
    let least = if cost.unpriced.is_empty() {
        ""
    } else {
        "at least "
    };
    let mut lines = vec![format!(
        "{}{} a drink with spares, {} without ({}).",
        capital(least),
        money(cost.per_serve, currency),
        money(cost.without_spare, currency),
        cost.known_words()
    )];
    if by_name && !cost.unpriced.is_empty() {
        lines.push(format!("No price: {}.", cost.unpriced.join(", ")));
    }
    if let Some((share, net)) = cost.pour_cost_pct.zip(cost.net_price) {
        lines.push(format!(
            "Pour cost {least}{} % of {} net.",
            number(share, 1),
            money(net, currency)
        ));
    }
    lines
}

/// What the packs of a list cost in a sentence, as far as prices are known.
pub fn packs_line(list: &Shopping, currency: &str) -> String {
    let known = list
        .lines
        .iter()
        .filter(|line| line.packs.is_some())
        .count();
    let of = known + list.unpriced.len();
    if of == 0 {
        return "Nothing has to be bought.".to_owned();
    }
    match at_least((list.cost, known, of), currency) {
        Some(words) => format!("Packs cost {words}."),
        None => "No prices: what the packs cost is not known.".to_owned(),
    }
}
