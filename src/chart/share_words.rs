//! What the bars and dots below the charts come to, in a sentence or two.

use crate::balance::{Contribution, FlavourNote};
use crate::units::percent;

/// Which pour brings most of each part of the balance, with its share.
pub fn brings_words(parts: &[Contribution]) -> String {
    type Read = fn(&Contribution) -> f64;
    let axes: [(&str, Read); 4] = [
        ("sweetness", |part| part.sweet),
        ("acid", |part| part.sour),
        ("alcohol", |part| part.strength),
        ("bitterness", |part| part.bitter),
    ];
    let said = axes.into_iter().filter_map(|(axis, read)| {
        let most = parts
            .iter()
            .max_by(|one, other| read(one).total_cmp(&read(other)))?;
        let share = read(most);
        (share > 0.0).then(|| format!("{axis} from {} ({})", most.name, percent(share, 0)))
    });
    let said: Vec<String> = said.collect();
    if said.is_empty() {
        return "No pour brings sweetness, acid, alcohol or bitterness.".to_owned();
    }
    format!("Most of each comes from: {}.", said.join(", "))
}

/// Where most of the error comes from; `shares` are inputs with their shares, 0 to 1, the largest first.
pub fn error_words(shares: &[(String, f64)]) -> String {
    let part = |(name, share): &(String, f64)| format!("{name} ({})", percent(*share, 0));
    match shares {
        [] => "No input is uncertain.".to_owned(),
        [one] => format!("All of the error comes from {}.", part(one)),
        [one, other, ..] => format!(
            "Most of the error comes from {}, then from {}.",
            part(one),
            part(other)
        ),
    }
}

/// Which flavour words several pours share, and how many stand alone; `names` are the pours in order.
pub fn flavour_words(names: &[&str], notes: &[FlavourNote]) -> String {
    let shared: Vec<String> = notes
        .iter()
        .filter(|note| note.count() > 1)
        .map(|note| {
            let carried = names.iter().zip(&note.carried);
            let carriers = carried.filter_map(|(name, carried)| carried.then_some(*name));
            format!(
                "{} ({})",
                note.word,
                carriers.collect::<Vec<_>>().join(", ")
            )
        })
        .collect();
    let alone = notes.len() - shared.len();
    let alone = match alone {
        0 => "none stands alone".to_owned(),
        1 => "one word stands alone".to_owned(),
        _ => format!("{alone} words stand alone"),
    };
    if shared.is_empty() {
        format!("No word is shared; {alone}.")
    } else {
        format!("Shared: {}; {alone}.", shared.join(", "))
    }
}
