//! Edits of house-made ingredients drawn at random, sensible ones and some that must be refused.

use crate::random_edits::Draw;
use crate::sample_drinks::larder;
use equipour::kitchen::usual_steps;
use equipour::model::{
    Document, Garnish, IngredientId, Preparation, PreparationId, Quantity, Source, TrialId,
};
use equipour::session::{
    Edit, HouseEdit, add_input, add_step, free_stream, move_step, open_streams, remove_input,
    remove_output, remove_step, rename_stream, set_process, stream_names,
};
use std::sync::Arc;

/// Names that draws give to preparations; few, so that they meet again.
const HOUSE: [&str; 3] = ["first", "second", "third"];

impl Draw {
    fn preparation(&self) -> PreparationId {
        PreparationId::from(HOUSE[self.which % HOUSE.len()])
    }

    /// Any output there is, else an ingredient.
    fn made_source(&self, document: &Document) -> Source {
        let outputs: Vec<Source> = document
            .preparations
            .iter()
            .flat_map(|(id, made)| {
                made.outputs.keys().map(|output| Source::Preparation {
                    preparation: id.clone(),
                    output: output.clone(),
                })
            })
            .collect();
        if outputs.is_empty() || self.other.is_multiple_of(3) {
            Source::Ingredient(self.ingredient())
        } else {
            outputs[self.other % outputs.len()].clone()
        }
    }

    fn quantity(&self) -> Quantity {
        match self.other % 5 {
            0 => Quantity::Ml(self.value),
            1 => Quantity::Pieces(self.value),
            2 if self.settles => Quantity::AsNeeded,
            _ => Quantity::Grams(self.value),
        }
    }

    fn named_output(&self, made: &mut Preparation) {
        let open: Vec<String> = open_streams(made).into_iter().map(str::to_owned).collect();
        let Some(stream) = open.get(self.other % open.len().max(1)) else {
            return;
        };
        let row = match self.which % 5 {
            // A row that something else may describe already.
            0 => self.ingredient(),
            part => IngredientId(format!("{}-row-{part}", HOUSE[self.which % HOUSE.len()])),
        };
        made.outputs.insert(stream.clone(), row);
        if self.settles {
            made.main.clone_from(stream);
            made.garnishes.insert(stream.clone(), Garnish::default());
            made.keeps_days.insert(stream.clone(), self.value);
        }
    }

    fn changed(&self, document: &Document, made: &mut Preparation) {
        let steps = usual_steps();
        let usual = &steps[self.other % steps.len()];
        let place = self.other % (made.steps.len() + 1);
        match self.kind {
            50 | 51 => {
                let source = self.made_source(document);
                add_input(made, "in", source, self.quantity());
            }
            52 => add_step(made, usual),
            53 => self.named_output(made),
            54 => {
                if let Some(input) = made.inputs.first_mut() {
                    input.quantity = self.quantity();
                    input.source = self.made_source(document);
                }
            }
            55 => match self.which % 5 {
                0 => remove_step(made, place),
                1 => move_step(made, place, self.which % 3),
                2 => set_process(made, place, None, usual),
                3 => remove_input(made, place),
                _ => {
                    let gone = made.outputs.keys().nth(place).cloned();
                    remove_output(made, &gone.unwrap_or_default());
                }
            },
            _ => {
                let names: Vec<String> =
                    stream_names(made).into_iter().map(str::to_owned).collect();
                if let Some(from) = names.get(self.other % names.len().max(1)) {
                    let to = if self.settles {
                        self.text.clone()
                    } else {
                        free_stream(made, "other")
                    };
                    let before = made.clone();
                    if rename_stream(made, from, &to).is_err() {
                        assert_eq!(*made, before, "a name that is refused changes nothing");
                    }
                }
            }
        }
    }

    /// The edit of what is made in the house that this draw stands for.
    pub(crate) fn edit_of_the_house(
        &self,
        document: &Document,
        trial: TrialId,
        pour: usize,
    ) -> Edit {
        let id = self.preparation();
        match self.kind {
            57 => {
                return Edit::SetSource {
                    trial,
                    pour,
                    source: self.made_source(document),
                };
            }
            58 => {
                return Edit::House(HouseEdit::Remove {
                    id,
                    keep: self.settles,
                });
            }
            _ => {}
        }
        let known = document.preparations.get(&id);
        let mut made = known.map_or_else(
            || Preparation {
                name: id.0.clone(),
                ..Preparation::default()
            },
            |made| Preparation::clone(made),
        );
        self.changed(document, &mut made);
        let rows = made.inputs.iter().filter_map(|input| match &input.source {
            Source::Ingredient(id) => Some((id.clone(), Arc::clone(larder().get(id)?))),
            Source::Preparation { .. } | Source::Lot(_) => None,
        });
        Edit::House(HouseEdit::Set {
            id,
            rows: rows.collect(),
            to: Box::new(made),
            label: self.text.clone(),
            gesture: self.settles.then(|| self.text.clone()),
        })
    }
}
