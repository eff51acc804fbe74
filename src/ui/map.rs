//! The balance map: what stands on it, how it is framed and read.

use super::chart_letters::Listening;
use super::chart_table::table;
use super::chart_view::{ChartView, caption};
use super::finding;
use super::intent::Outbox;
use super::naming::named;
use super::target_handle::TargetHandle;
use super::theme::Tokens;
use super::view::{FrameKey, View};
use crate::balance::Figures;
use crate::chart::{
    Chart, Frame, MapAsk, MarkKind, Spot, SpotKind, balance_map, opening_axes, read_mark,
};
use crate::model::{Axis, Point, Spec, TrialId};
use crate::session::{Command, Derived, Reference, Session};
use eframe::egui::{ComboBox, Key, RichText, TextEdit, Ui};
use egui_plot::PlotBounds;

/// So many times as wide as its own frame the map may be before it is framed anew.
const MOST_SPARE: f64 = 1.7;

/// Shows the map in `height` points.
pub(super) fn ui(
    ui: &mut Ui,
    session: &Session,
    view: &mut View,
    height: f32,
    outbox: &mut Outbox,
) {
    let (Some(spec), Some(derived)) = (session.spec(), session.derived()) else {
        return;
    };
    let point = derived.figures.as_ref().ok().map(|figures| figures.point);
    let (across, up) = view
        .axes
        .unwrap_or_else(|| opening_axes(point.as_ref(), spec.target.as_ref()));
    let top = ui.cursor().top();
    let found = session
        .references()
        .iter()
        .any(|known| wanted(known, &view.search));
    controls(ui, view, (across, up), (spec, found), outbox);
    let ask = ask(session, spec, derived, view, (across, up));
    let chart = balance_map(&ask);
    let left = height - (ui.cursor().top() - top);
    if view.tables {
        let room = ui.available_rect_before_wrap();
        table(ui, "map table", &chart, left);
        let shown = room.with_max_y(ui.cursor().top());
        Listening::Map.hear(ui, ui.rect_contains_pointer(shown));
        return;
    }
    follow(ui, session, view, &chart);
    let key = FrameKey {
        spec: session.selection().spec,
        axes: (across, up),
        in_steps: view.in_steps,
        frame: view.frame,
        search: view.search.clone(),
        times: view.reframe,
    };
    let reframe = view.framed.as_ref() != Some(&key);
    view.framed = Some(key);
    let shown = ChartView {
        id: "balance map",
        height: left,
        reframe,
        movable: true,
        zooms: false,
        letters: Some(Listening::Map),
        read: &|mark| read_mark(&ask, mark),
    }
    .show(ui, &chart);
    note_frame(
        ui,
        session,
        view,
        (*shown.transform.bounds(), &chart, reframe),
    );
    if view.show_regions && !view.in_steps {
        // Their own labels may find no room; where they come from is said in any case.
        caption(ui, &shown, "areas: published ranges, from memory");
    }
    if let Some(target) = &spec.target {
        let handle = TargetHandle {
            session,
            spec,
            target,
            axes: (across, up),
            in_steps: view.in_steps,
        };
        handle.ui(ui, &shown, outbox);
    }
}

/// Frames the map anew when a settled change took the drink, its target or the trial before out of
/// sight, or left all of it in a part of the frame; a map that was moved by hand is left alone.
fn follow(ui: &Ui, session: &Session, view: &mut View, chart: &Chart) {
    let Some((bounds, of)) = &view.seen else {
        return;
    };
    let moving = ui.input(|input| input.pointer.any_down());
    if moving || view.map_by_hand || *of == (session.revision(), session.selection()) {
        return;
    }
    let (low, high) = (bounds.min(), bounds.max());
    let own = [&chart.x, &chart.y].map(|scale| scale.to - scale.from);
    let wide = (0..2).any(|axis| high[axis] - low[axis] > MOST_SPARE * own[axis]);
    let hidden = chart.marks.iter().any(|mark| {
        let outside = |axis: usize| mark.at[axis] < low[axis] || mark.at[axis] > high[axis];
        let weighty = matches!(
            mark.kind,
            MarkKind::Present | MarkKind::Target | MarkKind::Parent
        );
        weighty && (outside(0) || outside(1))
    });
    if wide || hidden {
        view.reframe += 1;
    }
}

/// Notes what the map shows, of what, and whether a hand moved it there.
fn note_frame(
    ui: &Ui,
    session: &Session,
    view: &mut View,
    (bounds, chart, reframed): (PlotBounds, &Chart, bool),
) {
    let own = PlotBounds::from_min_max([chart.x.from, chart.y.from], [chart.x.to, chart.y.to]);
    let moved = view.seen.as_ref().is_some_and(|(seen, _)| *seen != bounds);
    view.map_by_hand = !reframed && bounds != own && (view.map_by_hand || moved);
    let now = (session.revision(), session.selection());
    // What changes under the pressed pointer is looked at once it is let go.
    let moving = ui.input(|input| input.pointer.any_down());
    let of = view.seen.as_ref().filter(|_| moving).map(|(_, of)| *of);
    view.seen = Some((bounds, of.unwrap_or(now)));
}

fn controls(
    ui: &mut Ui,
    view: &mut View,
    axes: (Axis, Axis),
    (spec, found): (&Spec, bool),
    outbox: &mut Outbox,
) {
    ui.horizontal_wrapped(|ui| {
        let mut chosen = axes;
        axis_combo(ui, "Up", &mut chosen.1);
        ui.label("against");
        axis_combo(ui, "Across", &mut chosen.0);
        if chosen != axes && chosen.0 != chosen.1 {
            view.axes = Some(chosen);
        }
        ui.separator();
        let whole = view.frame == Frame::WholeField;
        toggle(ui, outbox, Command::WholeField, whole, "Whole field");
        if spec.target.is_some() {
            toggle(ui, outbox, Command::Scale, view.in_steps, "Differences");
        }
        layers(ui, view, outbox);
        search(ui, view, found);
    });
}

/// A command that is on or off.
fn toggle(ui: &mut Ui, outbox: &mut Outbox, command: Command, on: bool, words: &str) {
    let label = ui.selectable_label(on, words);
    if named(label, command.info().name, command.info().explain).clicked() {
        outbox.command(command);
    }
}

fn layers(ui: &mut Ui, view: &View, outbox: &mut Outbox) {
    let layers = ui.menu_button("Layers", |ui| {
        for (command, on, words) in [
            (Command::References, view.show_references, "Classics"),
            (Command::Trail, view.show_trail, "Trail of trials"),
            (Command::Starred, view.show_starred, "Starred trials"),
            (Command::Spread, view.show_spread, "How far it may be off"),
            (
                Command::Regions,
                view.show_regions,
                "Published ranges, from memory",
            ),
        ] {
            toggle(ui, outbox, command, on, words);
        }
    });
    named(
        layers.response,
        "Layers",
        "Classics, earlier and starred trials, the drink's own uncertainty and published ranges on the map",
    );
}

fn search(ui: &mut Ui, view: &mut View, found: bool) {
    let search = TextEdit::singleline(&mut view.search)
        .hint_text("Find a classic")
        .desired_width(ui.available_width().min(130.0));
    let field = named(
        finding::follow(ui.add(search)),
        "Find a classic",
        "Classics whose name or family holds these letters come into the frame; Esc clears",
    );
    if field.lost_focus() && ui.input(|input| input.key_pressed(Key::Escape)) {
        view.search.clear();
    }
    if !view.search.trim().is_empty() && !found {
        ui.label(
            RichText::new("no such classic")
                .small()
                .color(Tokens::of(ui).caution),
        );
    }
}

fn axis_combo(ui: &mut Ui, which: &str, axis: &mut Axis) {
    let combo = ComboBox::from_id_salt(("axis", which))
        .selected_text(axis.name())
        .width(76.0)
        .show_ui(ui, |ui| {
            for choice in Axis::ALL {
                ui.selectable_value(
                    axis,
                    choice,
                    format!("{}, {}", choice.name(), choice.unit()),
                );
            }
        });
    named(
        combo.response,
        &format!("Axis: {which}"),
        "What this axis of the map shows",
    );
}

fn ask<'a>(
    session: &'a Session,
    spec: &'a Spec,
    derived: &'a Derived,
    view: &View,
    (across, up): (Axis, Axis),
) -> MapAsk<'a> {
    let known = |axis: Axis| session.document().senses.of(axis).is_some();
    let in_steps = view.in_steps && spec.target.is_some() && known(across) && known(up);
    let trail: Vec<Point> = if view.show_trail {
        derived.trail.iter().map(|earlier| earlier.point).collect()
    } else {
        Vec::new()
    };
    let regions = &session.builtin().regions;
    MapAsk {
        across,
        up,
        in_steps,
        frame: if spec.family.is_empty() {
            Frame::WholeField
        } else {
            view.frame
        },
        spots: spots(session, spec, derived, view),
        trail,
        regions: if view.show_regions { regions } else { &[] },
        target: spec.target.as_ref(),
        spread: derived.uncertainty.as_ref().filter(|_| view.show_spread),
        ghost_spread: view
            .previewing
            .preview(session)
            .and_then(|preview| preview.uncertainty.as_ref())
            .filter(|_| view.show_spread),
        senses: &session.document().senses,
        weights: &spec.balancing.weights,
        with_table: view.tables,
    }
}

/// A classic whose name or family holds what is searched.
fn wanted(known: &Reference, search: &str) -> bool {
    let search = search.trim().to_lowercase();
    !search.is_empty()
        && (known.name.to_lowercase().contains(&search) || known.family.contains(&search))
}

fn spots(session: &Session, spec: &Spec, derived: &Derived, view: &View) -> Vec<Spot> {
    let mut spots = Vec::new();
    for known in session.references() {
        let wanted = wanted(known, &view.search);
        let own = spec.classic.as_ref() == Some(&known.id);
        let family = known.family == spec.family;
        if !(view.show_references || own || wanted) {
            continue;
        }
        // Quiet start: the whole field only when asked for.
        let whole = view.frame == Frame::WholeField || spec.family.is_empty();
        if !(whole || own || family || wanted) {
            continue;
        }
        spots.push(Spot {
            name: known.name.clone(),
            point: known.point,
            kind: SpotKind::Classic {
                family,
                complete: known.unstated.is_empty(),
                own,
                wanted,
            },
        });
    }
    spots.extend(trials(session, spec, derived, view));
    spots.extend(view.ghost(session).map(|ghost| Spot {
        name: ghost.name.to_owned(),
        point: ghost.preview.figures.point,
        kind: SpotKind::Ghost,
    }));
    spots.extend(derived.figures.as_ref().ok().and_then(other_drink));
    let name = session.trial().map_or("", |trial| &trial.name);
    spots.extend(derived.figures.as_ref().ok().map(|figures| Spot {
        name: name.to_owned(),
        point: figures.point,
        kind: SpotKind::Present,
    }));
    spots
}

/// Earlier trials: the parent and the starred ones as references, the others as a trail.
fn trials(session: &Session, spec: &Spec, derived: &Derived, view: &View) -> Vec<Spot> {
    let parent = session.trial().and_then(|trial| trial.parent);
    let all = spec.trials.iter();
    let starred = all.filter(|trial| view.show_starred && trial.starred);
    let starred: Vec<TrialId> = starred.map(|trial| trial.id).collect();
    let mut spots = Vec::new();
    for earlier in &derived.trail {
        let kind = if parent == Some(earlier.id) {
            SpotKind::Parent
        } else if starred.contains(&earlier.id) {
            SpotKind::Starred
        } else if view.show_trail {
            SpotKind::Earlier
        } else {
            continue;
        };
        if Some(earlier.id) != session.selection().trial {
            spots.push(Spot {
                name: earlier.name.clone(),
                point: earlier.point,
                kind,
            });
        }
    }
    spots
}

/// While ice is left in the blender there are two drinks: the one that is not meant.
fn other_drink(figures: &Figures) -> Option<Spot> {
    let blender = figures.in_blender.as_ref()?;
    if blender.left_g < 0.5 {
        return None;
    }
    Some(Spot {
        name: if blender.melted_is_meant {
            "as drunk at once".to_owned()
        } else {
            "once all has melted".to_owned()
        },
        point: if blender.melted_is_meant {
            blender.now
        } else {
            blender.melted
        },
        kind: SpotKind::OtherDrink,
    })
}
