//! The three-digit codes on the cups.

use super::serving::{Stream, generator, shuffle};
use crate::model::{Taster, TastingMethod};
use core::ops::RangeInclusive;
use rand_chacha::ChaCha8Rng;
use std::collections::BTreeMap;

/// Codes of three digits.
const CODES: RangeInclusive<u16> = 100..=999;

/// Codes of a sample in a test of sets (our convention, no source): enough that neighbours seldom
/// see the same, few enough to label bottles with.
const CODES_IN_SETS: usize = 6;

/// The codes of every sample; none stands for two.
#[derive(Clone, Debug)]
pub(super) struct CodePool {
    of_sample: Vec<Vec<u16>>,
}

impl CodePool {
    /// Draws codes with the seed; those that `tasters` hold already stay.
    ///
    /// `None` when a sample would be left without enough codes for a set.
    pub(super) fn draw(
        method: &TastingMethod,
        samples: usize,
        seed: u64,
        tasters: &[Taster],
    ) -> Option<Self> {
        let (wanted, needed) = match method {
            TastingMethod::Triangle => (CODES_IN_SETS, 2),
            TastingMethod::DuoTrio => (CODES_IN_SETS, 1),
            _ => (1, 1),
        };
        let mut taken = BTreeMap::new();
        for cup in tasters.iter().flat_map(|taster| &taster.cups) {
            taken.insert(cup.code, cup.sample);
        }
        let mut pack: Vec<u16> = CODES.collect();
        shuffle(&mut pack, &mut generator(seed, Stream::Codes));
        pack.retain(|code| !taken.contains_key(code));
        let mut pack = pack.into_iter();
        let pool = |sample: usize| {
            let known = taken.iter().filter(|(_, of)| **of == sample);
            let mut codes: Vec<u16> = known.map(|(code, _)| *code).collect();
            let missing = wanted.saturating_sub(codes.len());
            codes.extend(pack.by_ref().take(missing));
            codes
        };
        let of_sample: Vec<Vec<u16>> = (0..samples).map(pool).collect();
        let enough = of_sample.iter().all(|codes| codes.len() >= needed);
        enough.then_some(Self { of_sample })
    }

    /// Codes for the cups of one taster, all different.
    pub(super) fn hand_out(&self, order: &[usize], random: &mut ChaCha8Rng) -> Vec<u16> {
        let mut left = self.of_sample.clone();
        for codes in left.iter_mut().filter(|codes| codes.len() > 1) {
            shuffle(codes, random);
        }
        order
            .iter()
            .filter_map(|sample| left.get_mut(*sample)?.pop())
            .collect()
    }
}
