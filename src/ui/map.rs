//! The balance map with its target to drag.

use super::chart_view::{ChartView, Shown, caption, table};
use super::intent::Outbox;
use super::naming::named;
use super::theme::Tokens;
use super::view::View;
use crate::chart::{
    Chart, Frame, MapAsk, Series, SeriesKind, Spot, SpotKind, balance_map, opening_axes,
};
use crate::model::{Axis, Point, Spec, Target};
use crate::session::{Command, Derived, Edit, Session};
use eframe::egui::WidgetInfo;
use eframe::egui::accesskit::Role;
use eframe::egui::{
    ComboBox, CursorIcon, EventFilter, Key, Rect, Sense, Stroke, StrokeKind, TextEdit, Ui, vec2,
};
use egui_plot::PlotPoint;

/// One press of an arrow key moves the target by this many noticeable differences.
const KEY_STEP: f64 = 0.1;

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
    controls(ui, view, (across, up), spec, outbox);
    let chart = chart(session, spec, derived, view, (across, up));
    let left = height - (ui.cursor().top() - top);
    if view.tables {
        table(ui, "map table", &chart, left - 24.0);
        return;
    }
    let key = (
        session.selection(),
        across,
        up,
        view.in_steps,
        view.frame,
        view.reframe,
    );
    let reframe = view.framed != Some(key);
    view.framed = Some(key);
    let shown = ChartView {
        id: "balance map",
        height: left,
        reframe,
        movable: true,
    }
    .show(ui, &chart);
    let areas = |series: &Series| matches!(series.kind, SeriesKind::Area);
    if chart.series.iter().any(areas) {
        // Their own labels may find no room; where they come from is said in any case.
        caption(ui, &shown, "areas: published ranges, from memory");
    }
    if let Some(target) = &spec.target {
        drag_target(
            ui,
            session,
            view,
            spec,
            target,
            (across, up),
            &shown,
            outbox,
        );
    }
}

fn controls(ui: &mut Ui, view: &mut View, axes: (Axis, Axis), spec: &Spec, outbox: &mut Outbox) {
    ui.horizontal_wrapped(|ui| {
        let mut chosen = axes;
        axis_combo(ui, "Up", &mut chosen.1);
        ui.label("against");
        axis_combo(ui, "Across", &mut chosen.0);
        if chosen != axes && chosen.0 != chosen.1 {
            view.axes = Some(chosen);
        }
        ui.separator();
        let mut toggle = |ui: &mut Ui, command: Command, on: bool, words: &str| {
            let label = ui.selectable_label(on, words);
            if named(label, command.info().name, command.info().explain).clicked() {
                outbox.command(command);
            }
        };
        toggle(
            ui,
            Command::WholeField,
            view.frame == Frame::WholeField,
            "Whole field",
        );
        if spec.target.is_some() {
            toggle(ui, Command::Scale, view.in_steps, "Differences");
        }
        let layers = ui.menu_button("Layers", |ui| {
            toggle(ui, Command::References, view.show_references, "Classics");
            toggle(ui, Command::Trail, view.show_trail, "Trail of trials");
            toggle(
                ui,
                Command::Regions,
                view.show_regions,
                "Published ranges, from memory",
            );
        });
        named(
            layers.response,
            "Layers",
            "Classics, earlier trials and published ranges on the map",
        );
        let search = TextEdit::singleline(&mut view.search)
            .hint_text("Find a classic")
            .desired_width(110.0);
        named(
            ui.add(search),
            "Find a classic",
            "Classics whose name or family holds these letters come forward",
        );
    });
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

fn chart(
    session: &Session,
    spec: &Spec,
    derived: &Derived,
    view: &View,
    (across, up): (Axis, Axis),
) -> Chart {
    let known = |axis: Axis| session.document().senses.of(axis).is_some();
    let in_steps = view.in_steps && spec.target.is_some() && known(across) && known(up);
    let trail: Vec<Point> = if view.show_trail {
        derived.trail.iter().map(|earlier| earlier.point).collect()
    } else {
        Vec::new()
    };
    let regions = &session.builtin().regions;
    balance_map(&MapAsk {
        across,
        up,
        in_steps,
        frame: view.frame,
        spots: spots(session, spec, derived, view),
        trail,
        regions: if view.show_regions { regions } else { &[] },
        target: spec.target.as_ref(),
        senses: &session.document().senses,
        weights: &spec.balancing.weights,
    })
}

fn spots(session: &Session, spec: &Spec, derived: &Derived, view: &View) -> Vec<Spot> {
    let search = view.search.trim().to_lowercase();
    let mut spots = Vec::new();
    for known in session.references() {
        let wanted = !search.is_empty()
            && (known.name.to_lowercase().contains(&search) || known.family.contains(&search));
        let own = spec.classic.as_ref() == Some(&known.id);
        let family = known.family == spec.family;
        if !(view.show_references || own || wanted) {
            continue;
        }
        // Quiet start: the whole field only when asked for.
        if view.frame == Frame::Family && !(own || family || wanted) {
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
    let parent = session.trial().and_then(|trial| trial.parent);
    for earlier in &derived.trail {
        let is_parent = parent == Some(earlier.id);
        if Some(earlier.id) == session.selection().trial || !(view.show_trail || is_parent) {
            continue;
        }
        spots.push(Spot {
            name: earlier.name.clone(),
            point: earlier.point,
            kind: if is_parent {
                SpotKind::Parent
            } else {
                SpotKind::Earlier
            },
        });
    }
    let ghost = view.hovered_proposal.and_then(|index| {
        let answer = derived.answer.as_ref().ok()?;
        answer.proposals.get(index)
    });
    spots.extend(ghost.map(|proposal| {
        Spot {
            name: proposal
                .kinds
                .first()
                .map_or("proposal", |kind| kind.name())
                .to_owned(),
            point: proposal.point,
            kind: SpotKind::Ghost,
        }
    }));
    let name = session.trial().map_or("", |trial| &trial.name);
    spots.extend(derived.figures.as_ref().ok().map(|figures| Spot {
        name: name.to_owned(),
        point: figures.point,
        kind: SpotKind::Present,
    }));
    spots
}

#[expect(
    clippy::too_many_arguments,
    reason = "one gesture needs the whole frame"
)]
fn drag_target(
    ui: &Ui,
    session: &Session,
    view: &View,
    spec: &Spec,
    target: &Target,
    (across, up): (Axis, Axis),
    shown: &Shown,
    outbox: &mut Outbox,
) {
    let senses = &session.document().senses;
    let scaled = view.in_steps && senses.of(across).is_some() && senses.of(up).is_some();
    let place = |axis: Axis| if scaled { 0.0 } else { target.point.on(axis) };
    let at = shown
        .transform
        .position_from_point(&PlotPoint::new(place(across), place(up)));
    if !shown.transform.frame().contains(at) {
        return;
    }
    let rect = Rect::from_center_size(at, vec2(26.0, 26.0));
    let id = shown.response.id.with("target");
    let response = ui
        .interact(rect, id, Sense::click_and_drag())
        .on_hover_cursor(CursorIcon::Grab);
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, "Target"));
    let response = named(
        response,
        "Target",
        "Drag the target, or move it with the arrow keys; proposals follow",
    );
    let mut point = target.point;
    // With the scale in differences the target is the origin: the pointer is read in its own axis.
    let read = |axis: Axis, value: f64| match senses.of(axis) {
        Some(threshold) if scaled => threshold.at_steps(value, target.point.on(axis)),
        _ => value,
    };
    if response.dragged() && response.drag_delta() != vec2(0.0, 0.0) {
        let moved = shown
            .transform
            .value_from_position(at + response.drag_delta());
        point.set(across, read(across, moved.x));
        point.set(up, read(up, moved.y));
    }
    if response.has_focus() {
        nudge(ui, &response, session, &mut point, (across, up));
        let ring = Stroke::new(1.5, Tokens::of(ui).accent);
        ui.painter()
            .rect_stroke(rect, 4.0, ring, StrokeKind::Inside);
    }
    if point != target.point {
        outbox.edit(Edit::SetTarget {
            spec: spec.id,
            target: Some(Target {
                point,
                label: String::new(),
            }),
        });
    }
}

fn nudge(
    ui: &Ui,
    response: &eframe::egui::Response,
    session: &Session,
    point: &mut Point,
    (across, up): (Axis, Axis),
) {
    ui.memory_mut(|memory| {
        memory.set_focus_lock_filter(
            response.id,
            EventFilter {
                horizontal_arrows: true,
                vertical_arrows: true,
                ..EventFilter::default()
            },
        );
    });
    let presses = |plus, minus| {
        ui.input(|input| input.num_presses(plus) as f64 - input.num_presses(minus) as f64)
    };
    let senses = &session.document().senses;
    for (axis, steps) in [
        (across, presses(Key::ArrowRight, Key::ArrowLeft)),
        (up, presses(Key::ArrowUp, Key::ArrowDown)),
    ] {
        if steps.abs() > 0.5 {
            let value = point.on(axis);
            let moved = senses
                .of(axis)
                .map_or(value + steps * KEY_STEP, |threshold| {
                    threshold.at_steps(steps * KEY_STEP, value)
                });
            point.set(axis, moved);
        }
    }
}
