//! The demo's drinks as they are handed in, and every way in which their sheets leave.

use crate::demo_submission::{ENTERED, HOUSE};
use crate::sample_drinks::builtin;
use equipour::model::{Document, Entry, Reader, ServicePlan, SpecId};
use equipour::session::{CHART_PX, Session, SheetFile, SheetView, service_papers, sheet_view};
use equipour::sheet::{Drawn, Laid, Role, json_ld, markdown, message_text, plain_text};
use equipour::store::{DEMO, read_text};
use std::sync::Arc;

/// The drink with a story and rules, and the one whose ingredients are made in house.
pub(crate) const SALT_MEADOW: SpecId = ENTERED;
pub(crate) const KITCHEN_GARDEN: SpecId = HOUSE;

pub(crate) fn demo() -> Document {
    read_text(DEMO).expect("the demo reads").document
}

pub(crate) fn entry(document: &mut Document, spec: SpecId) -> &mut Entry {
    let spec = document.spec_mut(spec).expect("it is there");
    Arc::make_mut(&mut spec.entry)
}

pub(crate) fn plan(document: &mut Document, spec: SpecId) -> &mut ServicePlan {
    let spec = document.spec_mut(spec).expect("it is there");
    Arc::make_mut(&mut spec.service)
}

/// A session that shows a drink.
pub(crate) fn showing(document: Document, spec: SpecId) -> Session {
    let mut session = Session::new(Arc::clone(builtin()), document);
    session.select_spec(spec);
    session.refresh();
    session
}

pub(crate) fn view(session: &Session, reader: Reader) -> SheetView {
    sheet_view(session, reader).expect("a drink is on screen")
}

/// Bytes of every file of a kind.
pub(crate) fn files(
    session: &Session,
    reader: Reader,
    kind: SheetFile,
) -> Result<Vec<(String, Vec<u8>)>, String> {
    let papers = service_papers(session).expect("a drink is on screen");
    let made = kind.bytes(&view(session, reader), &papers, CHART_PX);
    made.map_err(|error| error.to_string())
}

/// The only file of a kind, as text.
pub(crate) fn file_text(session: &Session, reader: Reader, kind: SheetFile) -> String {
    let mut made = files(session, reader, kind).expect("it can be made");
    assert_eq!(made.len(), 1, "{kind:?}");
    String::from_utf8(made.remove(0).1).expect("it is text")
}

/// Without blanks, so that the end of a line splits no word.
pub(crate) fn close(text: &str) -> String {
    text.chars().filter(|one| !one.is_whitespace()).collect()
}

/// Everything that pages say: letters, those the font lacks, and what charts stand for.
pub(crate) fn on_pages(laid: &Laid) -> String {
    let mut all = String::new();
    for item in laid.pages.iter().flat_map(|page| &page.items) {
        match &item.drawn {
            Drawn::Text(run) => all += &run.text,
            Drawn::Lacking(mark) => all.push(mark.letter),
            Drawn::Rectangle(..) | Drawn::Chart(_) => {}
        }
    }
    for element in &laid.elements {
        if let Role::Figure { alternative } = &element.role {
            all += alternative;
        }
    }
    all += &laid.about.title;
    all += laid.about.author.as_deref().unwrap_or("");
    close(&all)
}

/// Every way out of a sheet for a reader, as text without blanks.
pub(crate) fn ways_out(session: &Session, reader: Reader) -> Vec<(&'static str, String)> {
    let view = view(session, reader);
    let recipe = &view.recipe;
    let csv = file_text(session, reader, SheetFile::FiguresCsv);
    let mut ways = vec![
        ("plain text", close(&plain_text(recipe))),
        ("Markdown", close(&markdown(recipe).replace('\\', ""))),
        ("message", close(&message_text(recipe))),
        ("JSON-LD", close(&json_ld(recipe))),
        ("CSV", close(&csv)),
    ];
    for (name, laid) in [("pages", &view.laid), ("card", &view.card)] {
        let laid = laid.as_ref().unwrap_or_else(|error| panic!("{error}"));
        ways.push((name, on_pages(laid)));
    }
    ways
}
