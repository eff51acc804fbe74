//! Laws of every preparation, on random flows over all processes.

use crate::kitchen_flow_kit::{
    Kit, acid, agar, butter, gap, mass, milk, raspberries, sour_juice, spirit, strawberries, sugar,
    vinegar, water,
};
use equipour::kitchen::{Flow, dissolved_brix, usual_steps};
use equipour::model::{
    AcidProfile, Clarifier, DiluteTo, DryTo, Process, PureAcid, Quantity, Range, ReduceTo, Release,
    Retained, Step,
};
use equipour::physics::Component;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::TestRunner;
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// What a random step is made of: a process, two streams to take and six figures from 0 to 1.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Seed {
    process: usize,
    from: [usize; 2],
    figures: [f64; 6],
    lost: f64,
}

/// What random flows are grown from.
pub(crate) fn seeds() -> impl Strategy<Value = Vec<Seed>> {
    let seed = (
        0..23_usize,
        any::<[u8; 2]>(),
        prop::array::uniform6(0.0..1.0_f64),
        0.0..0.2_f64,
    );
    let seed = seed.prop_map(|(process, from, figures, lost)| Seed {
        process,
        from: from.map(usize::from),
        figures,
        lost,
    });
    prop::collection::vec(seed, 1..60)
}

/// Six inputs by weight, of which steps take what they like.
fn shelf(amounts: [f64; 6]) -> Kit {
    static SHELF: OnceLock<Kit> = OnceLock::new();
    let shelf = SHELF.get_or_init(|| {
        Kit::default()
            .like("water", &water())
            .grams("spirit", spirit(40.0), 0.0)
            .grams("strawberries", strawberries(), 0.0)
            .grams("milk", milk(), 0.0)
            .grams("butter", butter(), 0.0)
            .grams("vinegar", vinegar(), 0.0)
            .grams("juice", bound_juice(), 0.0)
    });
    let mut kit = shelf.clone();
    for (input, grams) in kit.preparation.inputs.iter_mut().zip(amounts) {
        input.quantity = Quantity::Grams(grams);
    }
    kit
}

/// A juice whose acids are partly bound, so that it carries cations and gas.
fn bound_juice() -> equipour::model::Ingredient {
    equipour::model::Ingredient {
        ph: Some(Range::exact(3.6)),
        co2_g_per_l: Some(3.0),
        ..sour_juice(10.0, 0.9, 0.4)
    }
}

fn release([water, soluble, fat, protein, starch, other]: [f64; 6]) -> Release {
    Release {
        water,
        soluble,
        fat,
        protein,
        starch,
        other,
    }
}

/// Turns a seed into a process that may be possible on the stream it works on.
#[expect(clippy::too_many_lines, reason = "one arm for each of the processes")]
fn process(
    seed: &Seed,
    kit: &mut Kit,
    found: &Flow,
    first: &str,
    fresh: &str,
) -> (Process, Vec<String>) {
    let [u, v, w, ..] = seed.figures;
    let stream = found.streams[first];
    let range = Range::exact;
    let mut more = Vec::new();
    let mut need = |kit: &mut Kit, row| {
        let name = format!("needed {fresh} {}", more.len());
        *kit = kit.clone().needed(&name, row);
        more.push(name);
    };
    let retained = if v < 0.5 {
        Retained::PerGram(range(u))
    } else {
        Retained::Yield(range(u))
    };
    let does = match seed.process {
        0 => Process::Combine,
        1 => Process::Dissolve,
        2 => Process::Rest,
        3 => Process::Soak {
            uptake: range(u),
            release: release(seed.figures),
        },
        4 => Process::Infuse {
            release: release(seed.figures),
        },
        5 => Process::Blend {
            release: release(seed.figures),
        },
        6 => Process::FreezeThaw {
            release: release(seed.figures),
        },
        7 => Process::Strain { retained },
        8 => Process::Press { retained },
        9 => Process::Juice {
            yielded: range(u),
            release: release(seed.figures),
            like: (w < 0.2).then(|| "water".into()),
        },
        10 => Process::Reduce {
            to: match (4.0 * w) as u8 {
                0 => ReduceTo::Grams(u * stream.mass_g()),
                1 => ReduceTo::Ml(u * stream.whole().volume_ml()),
                2 => ReduceTo::Share(u),
                _ => ReduceTo::Brix(dissolved_brix(&stream.liquid) + 30.0 * u),
            },
            alcohol_left: v,
        },
        11 => Process::Heat {
            steam: range(0.3 * u),
        },
        12 => Process::Dehydrate {
            to: if v < 0.5 {
                DryTo::Grams(u * stream.mass_g())
            } else {
                DryTo::Moisture(range(u))
            },
        },
        13 => {
            let with = if w < 0.5 {
                Clarifier::Milk
            } else {
                Clarifier::Agar
            };
            need(kit, if w < 0.5 { milk() } else { agar() });
            Process::Clarify {
                with,
                dose_pct: 20.0 * u,
                takes_out: release(seed.figures),
                held_back: range(v),
            }
        }
        14 => {
            need(kit, acid(PureAcid::Citric));
            need(kit, acid(PureAcid::Malic));
            need(kit, acid(PureAcid::Tartaric));
            Process::AdjustAcid {
                to: AcidProfile::Own {
                    citric: 8.0 * u,
                    malic: 6.0 * v,
                    tartaric: 2.0 * w + 0.1,
                },
            }
        }
        15 => {
            need(kit, sugar());
            Process::SweetenTo { brix: 70.0 * u }
        }
        16 => {
            need(kit, if v < 0.5 { water() } else { spirit(60.0) });
            Process::Dilute {
                to: match (3.0 * w) as u8 {
                    0 => DiluteTo::Brix(30.0 * u),
                    1 => DiluteTo::PercentVol(60.0 * u),
                    _ => DiluteTo::Parts(2.0 * u),
                },
            }
        }
        17 => {
            need(kit, water());
            Process::Stock {
                percent: 5.0 + 95.0 * u,
            }
        }
        18 => Process::SugarOnPeel {
            release: release(seed.figures),
            retained,
        },
        19 => Process::FatWash {
            fat_removed: u,
            held: range(v),
        },
        20 => Process::Carbonate {
            bar: 5.0 * u,
            kept: range(v),
        },
        21 => Process::Aerate {
            overrun: range(2.0 * u),
        },
        _ => Process::Divide { part: u },
    };
    (does, more)
}

/// Streams that are left, of those with any mass.
fn open(found: &Flow) -> Vec<String> {
    let left = found.waste.iter().filter(|name| mass(found, name) > 1e-6);
    left.cloned().collect()
}

/// Takes the steps that can be taken, at most twelve of them.
pub(crate) fn grown(amounts: [f64; 6], seeds: &[Seed]) -> Kit {
    let mut kit = shelf(amounts);
    let mut found = kit.flow();
    for (place, seed) in seeds.iter().enumerate() {
        if kit.preparation.steps.len() == 12 {
            break;
        }
        let left = open(&found);
        let Some(first) = left.get(seed.from[0] % left.len().max(1)).cloned() else {
            break;
        };
        let mut next = kit.clone();
        let fresh = place.to_string();
        let (does, more) = process(seed, &mut next, &found, &first, &fresh);
        let mut from = vec![first];
        let second = &left[seed.from[1] % left.len()];
        // A process that works out an amount takes one known stream here.
        if more.is_empty() && *second != from[0] {
            from.push(second.clone());
        }
        from.extend(more);
        let to = (0..does.makes())
            .map(|made| format!("made {fresh} {made}"))
            .collect();
        let celsius = Some(4.0);
        let lost = seed.lost;
        let step = Step {
            does,
            from,
            to,
            lost,
            celsius,
            ..usual_steps().remove(0)
        };
        next.preparation.steps.push(step);
        if let Ok(now) = next.try_flow() {
            found = now;
            kit = next;
        }
    }
    kit
}

/// Everything absolute times a factor.
fn scaled(kit: &Kit, factor: f64) -> Kit {
    let mut kit = kit.clone();
    for input in &mut kit.preparation.inputs {
        if let Quantity::Grams(grams) = &mut input.quantity {
            *grams *= factor;
        }
    }
    for step in &mut kit.preparation.steps {
        match &mut step.does {
            Process::Reduce {
                to: ReduceTo::Grams(to) | ReduceTo::Ml(to),
                ..
            }
            | Process::Dehydrate {
                to: DryTo::Grams(to),
            } => *to *= factor,
            _ => {}
        }
    }
    kit
}

#[test]
fn random_flows_try_every_process() {
    let mut runner = TestRunner::deterministic();
    let mut names = BTreeSet::new();
    for _ in 0..300 {
        let tree = seeds().new_tree(&mut runner).expect("seeds");
        let kit = grown([500.0; 6], &tree.current());
        names.extend(kit.preparation.steps.iter().map(|step| step.does.name()));
    }
    assert_eq!(names.len(), 23, "{names:?}");
}

proptest! {
    #[test]
    fn nothing_is_made_or_lost_in_any_flow(
        amounts in prop::array::uniform6(0.0..1000.0_f64),
        seeds in seeds(),
    ) {
        let kit = grown(amounts, &seeds);
        let found = kit.try_flow().expect("every step was possible");
        prop_assert_eq!(gap(&found, &kit.supplies), None);
        let lost = found.steps.iter().map(|step| (&step.lost.liquid, &step.lost.solid, &step.vapour));
        for (liquid, solid, vapour) in lost {
            for component in Component::ALL {
                let least = liquid[component].min(solid[component]).min(vapour[component]);
                prop_assert!(least >= 0.0, "{:?}: {}", component, least);
            }
        }
        for (name, stream) in &found.streams {
            for component in Component::ALL {
                let least = stream.liquid[component].min(stream.solid[component]);
                prop_assert!(least >= 0.0, "{}, {:?}: {}", name, component, least);
            }
            prop_assert!(stream.liquid.co2_g >= 0.0 && stream.solid.co2_g >= 0.0);
        }
    }

    #[test]
    fn scaling_a_batch_scales_every_stream(
        amounts in prop::array::uniform6(1.0..1000.0_f64),
        seeds in seeds(),
        factor in 0.01..100.0_f64,
    ) {
        let kit = grown(amounts, &seeds);
        let found = kit.try_flow().expect("every step was possible");
        let total_g: f64 = found.inputs_g.values().sum();
        let large = scaled(&kit, factor).try_flow();
        let large = large.expect("a batch of any size is possible");
        for (name, stream) in &found.streams {
            let other = &large.streams[name];
            // What is left after nearly all has steamed off carries the rounding of the whole.
            let scale = factor * (1e-12 * stream.mass_g() + 1e-15 * total_g);
            for component in Component::ALL {
                for (one, other) in [(&stream.liquid, &other.liquid), (&stream.solid, &other.solid)] {
                    let difference = (factor * one[component] - other[component]).abs();
                    prop_assert!(difference <= scale, "{}, {:?}: {}", name, component, difference);
                }
            }
        }
    }
}

#[test]
fn a_balance_that_does_not_close_is_noticed() {
    let retained = Retained::PerGram(Range::exact(1.0));
    let kit = Kit::default()
        .grams("fruit", raspberries(), 100.0)
        .grams("juice", bound_juice(), 400.0)
        .step(
            Process::Strain { retained },
            &["fruit", "juice"],
            &["liquid", "solids"],
        );
    let found = kit.flow();
    let supplies = kit.supplies;
    assert_eq!(gap(&found, &supplies), None);
    let mut dropped = found.clone();
    // As if the liquid that stays with the solids were forgotten.
    let solids = dropped.streams.get_mut("solids").expect("a stream");
    solids.liquid = equipour::physics::Composition::ZERO;
    let said = gap(&dropped, &supplies).expect("a gap");
    assert!(said.starts_with("water:"), "{said}");
    let mut without_salts = found.clone();
    let liquid = without_salts.streams.get_mut("liquid").expect("a stream");
    liquid.liquid.cation_mmol = 0.0;
    let said = gap(&without_salts, &supplies).expect("a gap");
    assert!(said.starts_with("cations:"), "{said}");
    let mut off_by_a_hair = found;
    let liquid = off_by_a_hair.streams.get_mut("liquid").expect("a stream");
    liquid.liquid[Component::Citric] *= 1.0 + 1e-10;
    assert!(gap(&off_by_a_hair, &supplies).is_some());
}
