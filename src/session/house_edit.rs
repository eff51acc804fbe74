//! Undoable changes of house-made ingredients.

use super::edit::EditError;
use super::edit_apply::{gone, own};
use super::house_build::follow_outputs;
use super::house_outdated::outdated_rows;
use super::larder_edit::{User, poured_by, users_of};
use crate::model::{Document, Ingredient, IngredientId, Preparation, PreparationId, Source, Spec};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Kind of the row that an output begins with.
pub const HOUSE_MADE: &str = "house-made";

/// A change of the house-made ingredients.
#[derive(Clone, Debug, PartialEq)]
pub enum HouseEdit {
    /// Writes a preparation, new or again, and begins the rows of its new outputs.
    ///
    /// An output is known by its row: one that bears another name is renamed wherever it is used.
    Set {
        /// Its name in the document.
        id: PreparationId,
        /// The preparation.
        to: Box<Preparation>,
        /// Rows that its inputs need and the document may lack.
        rows: Vec<(IngredientId, Arc<Ingredient>)>,
        /// Words for the history list.
        label: String,
        /// What is being dragged; edits of one gesture become one step.
        gesture: Option<String>,
    },
    /// Takes a preparation out.
    Remove {
        /// Its name in the document.
        id: PreparationId,
        /// What uses it goes on with its rows as they are, as ordinary ingredients.
        keep: bool,
    },
    /// Rows that were worked out by other figures than today's are worked out again.
    BringUpToDate,
}

impl HouseEdit {
    /// Words for the history list.
    pub(super) fn label(&self) -> String {
        match self {
            Self::Set { label, .. } => label.clone(),
            Self::Remove { keep: true, .. } => "Remove a preparation, keep its rows".into(),
            Self::Remove { .. } => "Remove a preparation".into(),
            Self::BringUpToDate => "Bring rows up to date".into(),
        }
    }

    /// What is being dragged, if anything.
    pub(super) fn gesture(&self) -> Option<String> {
        match self {
            Self::Set { id, gesture, .. } => Some(format!("{id} {}", gesture.as_ref()?)),
            Self::Remove { .. } | Self::BringUpToDate => None,
        }
    }
}

/// Carries a change of the house-made ingredients out.
pub(super) fn apply(document: &mut Document, edit: &HouseEdit) -> Result<(), EditError> {
    match edit {
        HouseEdit::Set { id, to, rows, .. } => {
            for (id, item) in rows {
                own(document, id, item);
            }
            set(document, id, to)
        }
        HouseEdit::Remove { id, keep } => remove(document, id, *keep),
        HouseEdit::BringUpToDate => {
            let rows = outdated_rows(document);
            if !rows.is_empty() {
                Arc::make_mut(&mut document.ingredients).extend(rows);
            }
            Ok(())
        }
    }
}

fn set(document: &mut Document, id: &PreparationId, to: &Preparation) -> Result<(), EditError> {
    let mut to = to.clone();
    follow_outputs(&mut to);
    let to = Arc::new(to);
    let was = document.preparations.get(id).cloned();
    check_rows(document, id, &to, was.as_deref())?;
    begin_rows(document, &to);
    let old: BTreeMap<String, IngredientId> = was.map_or_else(BTreeMap::new, |was| {
        was.outputs.clone().into_iter().collect()
    });
    let kept = |row: &IngredientId| to.outputs.iter().find(|(_, known)| *known == row);
    let dropped = old.iter().filter(|(_, row)| kept(row).is_none());
    for (name, _) in dropped.clone() {
        if let Some(user) = users_of_output(document, id, Some(name)).into_iter().next() {
            let why = format!("the output \"{name}\" is used by {}", user.name);
            return Err(EditError::InUse { why });
        }
    }
    let renamed: Renamed<'_> = old
        .iter()
        .filter_map(|(name, row)| Some((name.as_str(), kept(row)?.0.as_str())))
        .filter(|(name, now)| name != now)
        .collect();
    Arc::make_mut(&mut document.preparations).insert(id.clone(), Arc::clone(&to));
    if !renamed.is_empty() {
        rename(document, id, &renamed);
    }
    for (_, row) in dropped {
        tidy(document, row);
    }
    Ok(())
}

/// New names of outputs by their old ones.
type Renamed<'a> = BTreeMap<&'a str, &'a str>;

fn rename(document: &mut Document, id: &PreparationId, renamed: &Renamed<'_>) {
    resource(document, |source| match source {
        Source::Preparation {
            preparation,
            output,
        } if preparation == id => {
            let now = renamed.get(output.as_str())?;
            Some(Source::Preparation {
                preparation: id.clone(),
                output: (*now).to_owned(),
            })
        }
        _ => None,
    });
}

/// A row belongs to one output, and an output that is new begins a row of its own.
fn check_rows(
    document: &Document,
    id: &PreparationId,
    to: &Preparation,
    was: Option<&Preparation>,
) -> Result<(), EditError> {
    let refuse = |row: &IngredientId, by: &str| {
        let why = format!("the row \"{row}\" describes {by} already");
        Err(EditError::InUse { why })
    };
    let mut seen: BTreeMap<&IngredientId, &str> = BTreeMap::new();
    for (name, row) in &to.outputs {
        if let Some(other) = seen.insert(row, name) {
            return refuse(row, &format!("the output \"{other}\""));
        }
        let others = document
            .preparations
            .iter()
            .filter(|(known, _)| *known != id);
        for (_, other) in others {
            if other.outputs.values().any(|known| known == row) {
                return refuse(row, &other.name);
            }
        }
        let held = was.is_some_and(|was| was.outputs.values().any(|known| known == row));
        if !held && document.lots.values().any(|lot| lot.ingredient == *row) {
            return refuse(row, "a lot");
        }
    }
    Ok(())
}

/// Begins the rows of outputs that have none yet.
fn begin_rows(document: &mut Document, to: &Preparation) {
    let main = to.main_output().map(|(name, _)| name.to_owned());
    for (name, row) in &to.outputs {
        if document.ingredients.contains_key(row) {
            continue;
        }
        let is_main = main.as_ref() == Some(name);
        let item = Ingredient {
            name: row_name(&to.name, name, is_main),
            kind: HOUSE_MADE.to_owned(),
            basis: crate::model::Basis::Per100G,
            ..Ingredient::default()
        };
        Arc::make_mut(&mut document.ingredients).insert(row.clone(), Arc::new(item));
    }
}

/// The name a new row begins with: the preparation's for what it is made for.
pub(super) fn row_name(preparation: &str, output: &str, is_main: bool) -> String {
    if is_main {
        preparation.to_owned()
    } else {
        format!("{output} of {preparation}")
    }
}

fn remove(document: &mut Document, id: &PreparationId, keep: bool) -> Result<(), EditError> {
    let Some(made) = document.preparations.get(id).cloned() else {
        return gone("the preparation");
    };
    if !keep && let Some(user) = users_of_output(document, id, None).into_iter().next() {
        let why = format!("it is used by {}", user.name);
        return Err(EditError::InUse { why });
    }
    resource(document, |source| match source {
        Source::Preparation {
            preparation,
            output,
        } if preparation == id => made.outputs.get(output).cloned().map(Source::Ingredient),
        _ => None,
    });
    Arc::make_mut(&mut document.preparations).remove(id);
    if !keep {
        for row in made.outputs.values() {
            tidy(document, row);
        }
    }
    Ok(())
}

/// Takes a row out that nothing leans on any more.
fn tidy(document: &mut Document, row: &IngredientId) {
    if users_of(document, row).is_empty() {
        Arc::make_mut(&mut document.ingredients).remove(row);
    }
}

/// Gives pours, makings and inputs another source where `change` names one; a tasted trial keeps its
/// figures, because they hang on the row.
fn resource(document: &mut Document, change: impl Fn(&Source) -> Option<Source>) {
    for trial in document.specs.iter_mut().flat_map(Spec::trials_and_bin_mut) {
        let lines = trial.runs.iter().flat_map(|run| &run.lines);
        let poured = trial.pours.iter().map(|pour| &pour.source);
        let mut sources = poured.chain(lines.map(|line| &line.source));
        if sources.any(|source| change(source).is_some()) {
            let trial = Arc::make_mut(trial);
            let lines = trial.runs.iter_mut().flat_map(|run| &mut run.lines);
            let poured = trial.pours.iter_mut().map(|pour| &mut pour.source);
            for source in poured.chain(lines.map(|line| &mut line.source)) {
                if let Some(now) = change(source) {
                    *source = now;
                }
            }
        }
    }
    let inputs_change = |made: &Preparation| {
        let mut inputs = made.inputs.iter();
        inputs.any(|input| change(&input.source).is_some())
    };
    if !document
        .preparations
        .values()
        .any(|made| inputs_change(made))
    {
        return;
    }
    for made in Arc::make_mut(&mut document.preparations).values_mut() {
        if inputs_change(made) {
            for input in &mut Arc::make_mut(made).inputs {
                if let Some(source) = change(&input.source) {
                    input.source = source;
                }
            }
        }
    }
}

/// All that pours an output of a preparation, makes something of it or has a juice that is like it; any
/// output when none is named.
pub fn users_of_output(document: &Document, id: &PreparationId, output: Option<&str>) -> Vec<User> {
    let is_it = |source: &Source| match source {
        Source::Preparation {
            preparation,
            output: known,
        } => preparation == id && output.is_none_or(|output| output == known),
        Source::Ingredient(_) | Source::Lot(_) => false,
    };
    let mut users = poured_by(document, is_it);
    let own = document.preparations.get(id);
    let outputs = own.into_iter().flat_map(|made| &made.outputs);
    let rows: Vec<&IngredientId> = outputs
        .filter(|(known, _)| output.is_none_or(|output| output == known.as_str()))
        .map(|(_, row)| row)
        .collect();
    let others = document.preparations.iter();
    let makers = others.filter(|(other, made)| {
        made.inputs.iter().any(|input| is_it(&input.source))
            // Its own juice goes with it.
            || *other != id && made.likes().any(|like| rows.contains(&like))
    });
    users.extend(makers.map(|(_, made)| User {
        trial: None,
        name: made.name.clone(),
    }));
    users
}
