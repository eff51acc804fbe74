//! Changes of a preparation's shape: streams keep their names in step, wherever they are used.

use super::house_edit::row_name;
use super::larder_import::is_taken;
use super::open_document::Session;
use crate::model::{IngredientId, Input, Preparation, Quantity, Source, Step, free_name};
use std::collections::HashSet;

/// Longest name of a stream, in characters.
const LONGEST_NAME: usize = 60;

/// Why a stream cannot bear a name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StreamNameError {
    /// Nothing but blanks.
    #[error("a stream needs a name")]
    Empty,
    /// Too long to read.
    #[error("longer than {LONGEST_NAME} letters")]
    Long,
    /// Another stream bears it.
    #[error("another stream is called \"{0}\"")]
    Taken(String),
}

/// Every stream by name: inputs first, then what steps make, in order.
pub fn stream_names(made: &Preparation) -> Vec<&str> {
    let inputs = made.inputs.iter().map(|input| input.name.as_str());
    let steps = made.steps.iter().flat_map(|step| &step.to);
    inputs.chain(steps.map(String::as_str)).collect()
}

/// Streams that a step at `place` may take: there by then, and not taken by an earlier one.
pub fn open_before(made: &Preparation, place: usize) -> Vec<&str> {
    let before = made.steps.get(..place).unwrap_or(&made.steps);
    let inputs = made.inputs.iter().map(|input| input.name.as_str());
    let made = before.iter().flat_map(|step| &step.to).map(String::as_str);
    let taken: HashSet<&str> = before
        .iter()
        .flat_map(|step| &step.from)
        .map(String::as_str)
        .collect();
    let open = inputs.chain(made);
    open.filter(|name| !taken.contains(name)).collect()
}

/// Streams that no step takes.
pub fn open_streams(made: &Preparation) -> Vec<&str> {
    open_before(made, made.steps.len())
}

/// A name like this one that no stream bears: "strained", "strained 2".
pub fn free_stream(made: &Preparation, wish: &str) -> String {
    let known = stream_names(made);
    if !known.contains(&wish) {
        return wish.to_owned();
    }
    (2..=known.len() + 2)
        .map(|number| format!("{wish} {number}"))
        .find(|name| !known.contains(&name.as_str()))
        .unwrap_or_else(|| wish.to_owned())
}

/// Gives a stream another name everywhere in the preparation.
pub fn rename_stream(made: &mut Preparation, from: &str, to: &str) -> Result<(), StreamNameError> {
    let to = to.trim();
    if to == from {
        return Ok(());
    }
    if to.is_empty() {
        return Err(StreamNameError::Empty);
    }
    if to.chars().count() > LONGEST_NAME {
        return Err(StreamNameError::Long);
    }
    if stream_names(made).contains(&to) || made.outputs.contains_key(to) {
        return Err(StreamNameError::Taken(to.to_owned()));
    }
    let rename = |name: &mut String| {
        if name == from {
            to.clone_into(name);
        }
    };
    made.inputs
        .iter_mut()
        .for_each(|input| rename(&mut input.name));
    for step in &mut made.steps {
        step.from.iter_mut().for_each(rename);
        step.to.iter_mut().for_each(rename);
    }
    rename_output(made, from, to);
    Ok(())
}

/// Gives an output the name of another stream, with all that is said of it.
fn rename_output(made: &mut Preparation, from: &str, to: &str) {
    if made.main == from {
        to.clone_into(&mut made.main);
    }
    rename_key(&mut made.outputs, from, to);
    rename_key(&mut made.keeps_days, from, to);
    rename_key(&mut made.garnishes, from, to);
}

fn rename_key<V>(map: &mut std::collections::BTreeMap<String, V>, from: &str, to: &str) {
    if let Some(value) = map.remove(from) {
        map.insert(to.to_owned(), value);
    }
}

/// Adds an input at the end under a name of its own.
pub fn add_input(made: &mut Preparation, name: &str, source: Source, quantity: Quantity) {
    let short: String = name.chars().take(LONGEST_NAME).collect();
    let name = free_stream(made, short.trim());
    made.inputs.push(Input {
        name,
        source,
        quantity,
    });
}

/// Takes an input out, and out of the step that takes it.
pub fn remove_input(made: &mut Preparation, place: usize) {
    if place >= made.inputs.len() {
        return;
    }
    let gone = made.inputs.remove(place).name;
    for step in &mut made.steps {
        step.from.retain(|name| *name != gone);
    }
}

/// Adds a step at the end: it works on the stream made last, together with inputs that nothing has taken
/// where the process brings several together.
pub fn add_step(made: &mut Preparation, usual: &Step) {
    let open = open_streams(made);
    let is_input = |name: &str| made.inputs.iter().any(|input| input.name == name);
    let last = made.steps.last().and_then(|step| {
        let mut to = step.to.iter().map(String::as_str);
        // What is used already is done with, unless there is nothing else.
        let unused = |name: &&str| open.contains(name) && !made.outputs.contains_key(*name);
        let open = |name: &&str| open.contains(name);
        to.clone().find(unused).or_else(|| to.find(open))
    });
    let from: Vec<&str> = if usual.does.takes_many() {
        let inputs = open.iter().copied().filter(|name| is_input(name));
        last.into_iter().chain(inputs).collect()
    } else {
        // What was written down first is what the preparation is about.
        last.or_else(|| open.first().copied()).into_iter().collect()
    };
    let from = from.into_iter().map(str::to_owned).collect();
    let mut step = Step {
        from,
        to: Vec::new(),
        ..usual.clone()
    };
    name_made(made, &mut step, &usual.to);
    made.steps.push(step);
}

/// Lets an output whose stream is worked on further stand for what that step makes first.
pub(super) fn follow_outputs(made: &mut Preparation) {
    for place in 0..made.steps.len() {
        let step = &made.steps[place];
        let Some(to) = step.to.first().cloned() else {
            continue;
        };
        let mut taken = step.from.iter();
        let Some(from) = taken.find(|name| made.outputs.contains_key(*name)).cloned() else {
            continue;
        };
        if made.outputs.contains_key(&to) {
            continue;
        }
        rename_output(made, &from, &to);
    }
}

/// Lets a step make as many streams as its process does; names that are there stay.
fn name_made(made: &Preparation, step: &mut Step, wishes: &[String]) {
    let asked = step.does.makes();
    step.to.truncate(asked);
    while step.to.len() < asked {
        let wish = wishes.get(step.to.len()).map_or("made", String::as_str);
        let mut known = made.clone();
        known.steps.push(step.clone());
        let name = free_stream(&known, wish);
        step.to.push(name);
    }
}

/// Gives a step another process with its usual minutes and tools; the streams that it makes stay as far
/// as the process makes them, and names that nobody chose follow the process.
pub fn set_process(made: &mut Preparation, place: usize, was: Option<&Step>, usual: &Step) {
    let Some(held) = made.steps.get(place).cloned() else {
        return;
    };
    let mut step = Step {
        from: held.from,
        to: held.to,
        note: held.note,
        ..usual.clone()
    };
    name_made(made, &mut step, &usual.to);
    let unchosen: Vec<(String, &String)> = step
        .to
        .iter()
        .zip(was.map_or(&[][..], |was| &was.to))
        .zip(&usual.to)
        .filter(|((name, was), wish)| name == was && wish != was)
        .map(|((name, _), wish)| (name.clone(), wish))
        .collect();
    if let Some(held) = made.steps.get_mut(place) {
        *held = step;
    }
    for (name, wish) in unchosen {
        let fresh = free_stream(made, wish);
        // A name that cannot be taken leaves the old one, which is as good.
        rename_stream(made, &name, &fresh).unwrap_or_default();
    }
}

/// Takes a step out: what took the first thing it made takes what the step took.
pub fn remove_step(made: &mut Preparation, place: usize) {
    if place >= made.steps.len() {
        return;
    }
    let gone = made.steps.remove(place);
    let first = gone.to.first();
    for step in &mut made.steps {
        if let Some(at) = step.from.iter().position(|name| Some(name) == first) {
            step.from.splice(at..=at, gone.from.iter().cloned());
        }
        step.from.retain(|name| !gone.to.contains(name));
    }
    // An output of the step is now what the step worked on.
    if let (Some(first), Some(worked_on)) = (first, gone.from.first())
        && !made.outputs.contains_key(worked_on)
        && open_streams(made).contains(&worked_on.as_str())
    {
        rename_output(made, first, worked_on);
    }
}

/// Moves a step to another place of the list.
pub fn move_step(made: &mut Preparation, from: usize, to: usize) {
    if from < made.steps.len() && to < made.steps.len() {
        let step = made.steps.remove(from);
        made.steps.insert(to, step);
    }
}

/// Names a stream as an output, with a row of its own.
pub fn add_output(session: &Session, made: &mut Preparation, stream: &str) {
    let is_main = made.outputs.is_empty();
    let wish = row_name(&made.name, stream, is_main);
    let taken =
        |name: &str| is_taken(session, name) || made.outputs.values().any(|row| row.0 == name);
    let row = IngredientId(free_name(&wish, taken));
    made.outputs.insert(stream.to_owned(), row);
    if is_main {
        stream.clone_into(&mut made.main);
    }
}

/// Lets a stream be waste again.
pub fn remove_output(made: &mut Preparation, stream: &str) {
    made.outputs.remove(stream);
    made.keeps_days.remove(stream);
    made.garnishes.remove(stream);
    if made.main == stream {
        made.main.clear();
    }
}
