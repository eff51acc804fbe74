//! Cells that hold one of a few words.

use crate::model::{AcidBasis, Basis, Confidence, Place, PureAcid, Role};

/// A choice that a cell may state by a word.
pub(super) trait Word: Copy + Default + PartialEq + 'static {
    /// Each choice with the word it is written as.
    const WORDS: &'static [(&'static str, Self)];
    /// Other words that are understood.
    const ALSO: &'static [(&'static str, Self)] = &[];

    /// The choice that a text states; letters and digits count, nothing else.
    fn read(text: &str) -> Option<Self> {
        let bare = |text: &str| -> String {
            let letters = text.chars().flat_map(char::to_lowercase);
            letters.filter(|letter| letter.is_alphanumeric()).collect()
        };
        let text = bare(text);
        let mut all = Self::WORDS.iter().chain(Self::ALSO);
        let (_, choice) = all.find(|(word, _)| bare(word) == text)?;
        Some(*choice)
    }

    /// The word it is written as.
    fn write(self) -> String {
        let mut all = Self::WORDS.iter();
        let found = all.find(|(_, choice)| *choice == self);
        found.map_or_else(String::new, |(word, _)| (*word).to_owned())
    }
}

impl Word for Basis {
    const WORDS: &'static [(&'static str, Self)] =
        &[("per 100 ml", Self::Per100Ml), ("per 100 g", Self::Per100G)];
    const ALSO: &'static [(&'static str, Self)] = &[
        ("100 ml", Self::Per100Ml),
        ("g/100 ml", Self::Per100Ml),
        ("100 g", Self::Per100G),
        ("g/100 g", Self::Per100G),
    ];
}

impl Word for AcidBasis {
    const WORDS: &'static [(&'static str, Self)] =
        &[("titrated", Self::Titrated), ("total", Self::Total)];
}

impl Word for Confidence {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("high", Self::High),
        ("medium", Self::Medium),
        ("low", Self::Low),
    ];
}

impl Word for Place {
    const WORDS: &'static [(&'static str, Self)] = &[
        (Self::Room.name(), Self::Room),
        (Self::Fridge.name(), Self::Fridge),
        (Self::Freezer.name(), Self::Freezer),
    ];
}

impl Word for Role {
    const WORDS: &'static [(&'static str, Self)] = &[
        (Self::Base.name(), Self::Base),
        (Self::Modifier.name(), Self::Modifier),
        (Self::Sweet.name(), Self::Sweet),
        (Self::Sour.name(), Self::Sour),
        (Self::Body.name(), Self::Body),
        (Self::Aroma.name(), Self::Aroma),
        (Self::Length.name(), Self::Length),
        (Self::Seasoning.name(), Self::Seasoning),
        (Self::Other.name(), Self::Other),
    ];
}

impl Word for Option<PureAcid> {
    const WORDS: &'static [(&'static str, Self)] = &[
        ("citric", Some(PureAcid::Citric)),
        ("malic", Some(PureAcid::Malic)),
        ("tartaric", Some(PureAcid::Tartaric)),
        ("ascorbic", Some(PureAcid::Ascorbic)),
    ];
}

impl Word for bool {
    const WORDS: &'static [(&'static str, Self)] = &[("yes", true), ("no", false)];
    const ALSO: &'static [(&'static str, Self)] = &[
        ("true", true),
        ("1", true),
        ("x", true),
        ("false", false),
        ("0", false),
    ];
}
