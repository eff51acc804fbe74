//! The orders in which cups may be served so that no sample gains by its place.

use crate::model::{Taster, TastingMethod};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

/// What one taster is served.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Serving {
    /// Sample shown openly, in a duo-trio test.
    pub(super) reference: Option<usize>,
    /// Samples in the order they are tasted.
    pub(super) order: Vec<usize>,
}

impl Serving {
    /// True for the serving that a taster got.
    fn is_of(&self, taster: &Taster) -> bool {
        let served = taster.cups.iter().map(|cup| cup.sample);
        self.reference == taster.reference && served.eq(self.order.iter().copied())
    }
}

/// Orders that are balanced when every one of them is served equally often.
#[derive(Clone, Debug)]
pub(super) struct Design {
    servings: Vec<Serving>,
    /// How often each was served so far.
    served: Vec<usize>,
}

impl Design {
    /// The design of a method: which sample gets which letter is drawn with the seed.
    pub(super) fn draw(method: &TastingMethod, samples: usize, seed: u64) -> Self {
        let servings = match method {
            TastingMethod::Triangle => triangle(),
            TastingMethod::DuoTrio => duo_trio(),
            _ => {
                let mut letters: Vec<usize> = (0..samples).collect();
                shuffle(&mut letters, &mut generator(seed, Stream::Letters));
                let lettered = |row: Vec<usize>| Serving {
                    reference: None,
                    order: row.into_iter().map(|letter| letters[letter]).collect(),
                };
                williams(samples).into_iter().map(lettered).collect()
            }
        };
        let served = vec![0; servings.len()];
        Self { servings, served }
    }

    /// Counts what was served already.
    pub(super) fn count(&mut self, tasters: &[Taster]) {
        for taster in tasters {
            let place = self.servings.iter().position(|one| one.is_of(taster));
            if let Some(place) = place {
                self.served[place] += 1;
            }
        }
    }

    /// One of those served least, drawn at random; of a duo-trio test with the reference served least.
    ///
    /// Since none is served again before all others were, every full block is balanced, whoever comes
    /// late or is taken out.
    pub(super) fn next(&mut self, random: &mut ChaCha8Rng) -> Serving {
        let shown = |reference: Option<usize>| -> usize {
            let all = self.servings.iter().zip(&self.served);
            all.filter(|(one, _)| one.reference == reference)
                .map(|(_, times)| times)
                .sum()
        };
        let rank = |place: usize| (shown(self.servings[place].reference), self.served[place]);
        let least = (0..self.servings.len()).map(rank).min();
        let mut open: Vec<usize> = (0..self.servings.len()).collect();
        open.retain(|place| Some(rank(*place)) == least);
        let place = open[below(open.len(), random)];
        self.served[place] += 1;
        self.servings[place].clone()
    }
}

/// The rows of a Williams design: every sample stands equally often in every place, and every one
/// follows every other equally often (Williams 1949, Aust J Chem 2:149; from memory).
///
/// As many rows as samples when these are even, otherwise twice as many.
fn williams(samples: usize) -> Vec<Vec<usize>> {
    // 0, 1, n−1, 2, n−2, …: neighbours differ by every amount once.
    let zigzag = |place: usize| match place {
        0 => 0,
        odd if odd % 2 == 1 => odd.div_ceil(2),
        even => samples - even / 2,
    };
    let row = |shift: usize| -> Vec<usize> {
        (0..samples)
            .map(|place| (zigzag(place) + shift) % samples)
            .collect()
    };
    let mut rows: Vec<Vec<usize>> = (0..samples).map(row).collect();
    if samples % 2 == 1 && samples > 1 {
        let mirrored = |row: &Vec<usize>| row.iter().rev().copied().collect();
        let mirrored: Vec<Vec<usize>> = rows.iter().map(mirrored).collect();
        rows.extend(mirrored);
    }
    rows
}

/// AAB, ABA, BAA, BBA, BAB, ABB (ISO 4120; from memory).
fn triangle() -> Vec<Serving> {
    let set = |order: [usize; 3]| Serving {
        reference: None,
        order: order.to_vec(),
    };
    [
        [0, 0, 1],
        [0, 1, 0],
        [1, 0, 0],
        [1, 1, 0],
        [1, 0, 1],
        [0, 1, 1],
    ]
    .map(set)
    .to_vec()
}

/// Either sample as the reference, with either order of the two cups: the balanced-reference form of
/// ISO 10399 (from memory).
fn duo_trio() -> Vec<Serving> {
    let set = |(reference, order): (usize, [usize; 2])| Serving {
        reference: Some(reference),
        order: order.to_vec(),
    };
    [(0, [0, 1]), (0, [1, 0]), (1, [0, 1]), (1, [1, 0])]
        .map(set)
        .to_vec()
}

/// What random numbers of one seed are drawn for, so that one use never shifts another.
#[derive(Clone, Copy, Debug)]
pub(super) enum Stream {
    /// Which sample gets which letter of the design.
    Letters,
    /// The pack of codes.
    Codes,
    /// Rows and codes of the tasters from this one on.
    Tasters(usize),
}

/// The random numbers of a seed for one use.
pub(super) fn generator(seed: u64, stream: Stream) -> ChaCha8Rng {
    let mut random = ChaCha8Rng::seed_from_u64(seed);
    random.set_stream(match stream {
        Stream::Letters => 0,
        Stream::Codes => 1,
        Stream::Tasters(first) => 2 + first as u64,
    });
    random
}

/// A whole number from 0 to below `count`; at 900 the bias is below one in four million.
fn below(count: usize, random: &mut ChaCha8Rng) -> usize {
    ((u64::from(random.next_u32()) * count as u64) >> 32) as usize
}

/// Puts them into a random order.
pub(super) fn shuffle<T>(items: &mut [T], random: &mut ChaCha8Rng) {
    for last in (1..items.len()).rev() {
        items.swap(last, below(last + 1, random));
    }
}
