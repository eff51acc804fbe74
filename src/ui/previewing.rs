//! What the charts preview: a proposal or a part of it, under the pointer or with the focus.

use super::view::View;
use crate::rebalance::Change;
use crate::session::{Preview, Selection, Session};
use eframe::egui::Context;

/// Something to preview.
#[derive(Clone, Debug, PartialEq)]
struct Pointed {
    name: String,
    changes: Vec<Change>,
}

/// What is previewed in this frame, and what was pointed at in it.
///
/// Panels that are drawn before the one that is pointed at have to know, so that a preview begins
/// with the next frame.
#[derive(Debug, Default)]
pub(super) struct Previewing {
    of: (u64, Selection),
    shown: Option<Pointed>,
    by_pointer: Option<Pointed>,
    by_focus: Option<Pointed>,
}

/// A preview with its name.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ghost<'a> {
    pub(super) name: &'a str,
    pub(super) preview: &'a Preview,
}

impl Previewing {
    /// Asks for a preview; the pointer goes before the focus.
    pub(super) fn point_at(&mut self, name: &str, changes: &[Change], by_pointer: bool) {
        let pointed = Pointed {
            name: name.to_owned(),
            changes: changes.to_vec(),
        };
        if by_pointer {
            self.by_pointer = Some(pointed);
        } else {
            self.by_focus = Some(pointed);
        }
    }

    /// Ends a frame; true when the next one previews something else.
    pub(super) fn turn(&mut self) -> bool {
        let focus = self.by_focus.take();
        let next = self.by_pointer.take().or(focus);
        let turned = next != self.shown;
        self.shown = next;
        turned
    }

    /// What is previewed, once it is worked out.
    pub(super) fn preview<'a>(&self, session: &'a Session) -> Option<&'a Preview> {
        session.previewed(&self.shown.as_ref()?.changes)
    }

    /// The same with its name.
    pub(super) fn ghost<'a>(&'a self, session: &'a Session) -> Option<Ghost<'a>> {
        Some(Ghost {
            name: &self.shown.as_ref()?.name,
            preview: self.preview(session)?,
        })
    }

    /// Forgets what was pointed at before the document or the selection changed.
    fn keep_for(&mut self, of: (u64, Selection)) {
        if self.of != of {
            self.of = of;
            self.shown = None;
        }
    }
}

/// Works out, before a frame, what panels will read: previews, parts, the trade-off.
pub(super) fn prepare(ctx: &Context, session: &mut Session, view: &mut View) {
    let of = (session.revision(), session.selection());
    view.previewing.keep_for(of);
    view.cards.keep_for(of);
    for part in view.cards.parts(session) {
        session.preview(&part);
    }
    if let Some(shown) = &view.previewing.shown {
        session.preview(&shown.changes);
    }
    session.take_trade_off();
    if view.shows_trade_off() {
        let waker = ctx.clone();
        session.want_trade_off(move || waker.request_repaint());
    } else {
        session.forget_trade_off();
    }
}
