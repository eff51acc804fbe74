//! Finding something by the words that people type: how well a name fits them.

/// Shortest typed word in which one slip is forgiven, letters.
const SLIP: usize = 4;
/// Shortest typed word whose letters may be strewn over a name.
const STREWN: usize = 3;
/// Rank of a word of the name; what fits worse has a higher rank.
const NAME: u32 = 0;
const WORDS: u32 = 1;
const NAME_BEGINS: u32 = 2;
const WORDS_BEGIN: u32 = 3;
const NAME_HOLDS: u32 = 4;
const EXPLAINED: u32 = 6;
const ONE_SLIP: u32 = 8;
const LETTERS: u32 = 12;
/// Ranks weigh more than how long a name is.
const PER_RANK: u32 = 100;

/// Something that can be looked for.
#[derive(Clone, Copy, Debug)]
pub struct Findable<'a> {
    /// Its name on screen.
    pub name: &'a str,
    /// Other words that people use for it.
    pub words: &'a str,
    /// What it does, in a sentence.
    pub explain: &'a str,
}

/// How well something fits what was typed: less is better, `None` when it does not fit.
///
/// Every typed word has to fit somehow. Whole words of the name come first, then whole search words,
/// beginnings, parts, the explanation, one slip of the keys, and at last letters in their order. Of
/// equals the one whose name says little else comes first.
pub fn find_rank(typed: &str, thing: Findable<'_>) -> Option<u32> {
    let (name, words) = (split(thing.name), split(thing.words));
    let explain = split(thing.explain);
    let mut rank = 0;
    for word in split(typed) {
        rank += word_rank(&word, &name, &words, &explain)? * PER_RANK;
    }
    let length = u32::try_from(name.len()).unwrap_or(PER_RANK);
    Some(rank + length.min(PER_RANK - 1))
}

/// How a typed word may fit one of some words, and the rank of that.
type Way<'a> = (&'a [String], &'a dyn Fn(&str) -> bool, u32);

/// Words in small letters.
fn split(text: &str) -> Vec<String> {
    let letters = text.to_lowercase();
    let words = letters.split(|letter: char| !letter.is_alphanumeric());
    let words = words.filter(|word| !word.is_empty());
    words.map(str::to_owned).collect()
}

fn word_rank(word: &str, name: &[String], words: &[String], explain: &[String]) -> Option<u32> {
    let any = |list: &[String], fits: &dyn Fn(&str) -> bool| list.iter().any(|one| fits(one));
    let is_whole = |one: &str| singular(one) == singular(word);
    let begins = |one: &str| one.starts_with(word);
    let slips = |one: &str| word.chars().count() >= SLIP && is_one_slip(word, one);
    let ways: [Way<'_>; 7] = [
        (name, &is_whole, NAME),
        (words, &is_whole, WORDS),
        (name, &begins, NAME_BEGINS),
        (words, &begins, WORDS_BEGIN),
        (name, &|one| one.contains(word), NAME_HOLDS),
        (explain, &begins, EXPLAINED),
        (name, &slips, ONE_SLIP),
    ];
    for (list, fits, rank) in ways {
        if any(list, fits) {
            return Some(rank);
        }
    }
    if any(words, &slips) {
        return Some(ONE_SLIP + 1);
    }
    let is_strewn = word.chars().count() >= STREWN && is_in_order(word, &name.concat());
    is_strewn.then_some(LETTERS)
}

/// A word without the s of several.
fn singular(word: &str) -> &str {
    word.strip_suffix('s')
        .filter(|stem| stem.chars().count() >= STREWN)
        .unwrap_or(word)
}

/// The first letters are the same and the others come in their order.
fn is_in_order(letters: &str, text: &str) -> bool {
    let mut left = text.chars();
    let mut wanted = letters.chars();
    if wanted.next() != left.next() {
        return false;
    }
    wanted.all(|letter| left.any(|one| one == letter))
}

/// One letter too many, one too few, a wrong one, or two that changed places.
fn is_one_slip(typed: &str, word: &str) -> bool {
    let (typed, word): (Vec<char>, Vec<char>) = (typed.chars().collect(), word.chars().collect());
    if typed.len().abs_diff(word.len()) > 1 {
        return false;
    }
    let same = typed.iter().zip(&word).take_while(|(a, b)| a == b).count();
    let (one, other) = (&typed[same..], &word[same..]);
    let after = |letters: &'_ [char], count: usize| letters.get(count..).map(<[char]>::to_vec);
    let swapped = one.len() >= 2
        && other.len() >= 2
        && one[0] == other[1]
        && one[1] == other[0]
        && one[2..] == other[2..];
    swapped
        || after(one, 1) == after(other, 1)
        || after(one, 1).as_deref() == Some(other)
        || after(other, 1).as_deref() == Some(one)
}
