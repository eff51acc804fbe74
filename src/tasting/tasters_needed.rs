//! How many tasters would see a difference of a stated size.

use super::binomial::upper_tail;

/// Larger panels are not looked at: five times what a document may hold.
pub const MOST_TASTERS_LOOKED_AT: u32 = 1000;

/// Panels in a row that must all be strong enough. Power rises like a saw, a tooth being as long as
/// it takes for one more right answer to be asked, two or three tasters; a tooth that reaches below
/// after forty that do not is not known.
const IN_A_ROW: u32 = 40;

/// Fewest tasters with which a true share is found significant at `level` as often as `power` says.
///
/// `chance` is the share without any difference, `true_share` the one to be seen, `level` that of
/// one side. Exact. Power rises with the number of tasters like a saw, so a panel counts only when
/// the forty next larger ones are strong enough, too. `None` when there is nothing to see
/// (`true_share` not above `chance`) or more than [`MOST_TASTERS_LOOKED_AT`] would be needed.
pub fn tasters_needed(chance: f64, true_share: f64, level: f64, power: f64) -> Option<u32> {
    // Written so that a figure that is no number finds nothing.
    if !(true_share > chance && true_share <= 1.0) {
        return None;
    }
    // The critical number never falls from one panel to the next larger one.
    let mut least = 0;
    let mut first = None;
    for trials in 1..=MOST_TASTERS_LOOKED_AT + IN_A_ROW {
        while upper_tail(least, trials, chance) > level {
            least += 1;
        }
        if upper_tail(least, trials, true_share) < power {
            first = None;
            continue;
        }
        let first = *first.get_or_insert(trials);
        if trials - first >= IN_A_ROW {
            return Some(first);
        }
    }
    None
}
