//! Writes the sheet on screen to a file.

use super::dialogs::{FileBrowser, Wanted};
use super::export_again::{drink_said, known_again};
use super::file_target::FileTarget;
use super::intent::Outbox;
use super::naming::named;
use super::number_field::NumberField;
use super::recentred::recentre;
use super::theme::Tokens;
use crate::model::Reader;
use crate::service::{Finding, RuleVerdict, findings_summary};
use crate::session::{
    CHART_PX, CHART_SIDES_PX, Over, ServicePapers, Session, SheetExport, SheetExportError,
    SheetFile, SheetView, export_sheet, exported_sheet, service_papers,
};
use crate::store::{LastExport, file_name_of};
use eframe::egui::{ComboBox, Context, ProgressBar, RichText, Ui};
use std::path::PathBuf;
use std::sync::Arc;

/// Height in which the list of kinds shows without scrolling, points.
const LIST: f32 = 420.0;

/// State of the dialog.
#[derive(Debug)]
pub(super) struct SheetDialog {
    view: Arc<SheetView>,
    papers: Arc<ServicePapers>,
    kind: SheetFile,
    /// Size of a chart alone, px.
    chart_px: [u32; 2],
    /// What the rules still hold against it, in words; blank when nothing.
    rules: String,
    to: FileTarget,
    running: Option<SheetExport>,
    /// The drink, as an export remembers it.
    drink: String,
    /// What was written just now, and how.
    written: Option<LastExport>,
    /// Height when it was last shown, points.
    height: f32,
}

/// "The rules: 2 broken, 1 not known"; blank when nothing stands against it.
fn rules_against(session: &Session) -> String {
    let findings = session
        .derived()
        .map_or(&[][..], |derived| &derived.rules.findings);
    let open: Vec<Finding> = findings
        .iter()
        .filter(|finding| finding.verdict != RuleVerdict::Kept)
        .cloned()
        .collect();
    if open.is_empty() {
        return String::new();
    }
    format!("The rules: {}.", findings_summary(&open))
}

impl SheetDialog {
    /// The sheet for a reader, as it is now; it begins with the choices of the last one.
    pub(super) fn of(
        session: &Session,
        view: Arc<SheetView>,
        reader: Reader,
        last: Option<&LastExport>,
    ) -> Option<Self> {
        let papers = Arc::new(service_papers(session)?);
        let drink = session.spec().map_or("drink", |spec| spec.name.as_str());
        let name = PathBuf::from(file_name_of(&format!("{drink} {}", reader.name())));
        let folder = last.and_then(|last| last.path.parent());
        let name = folder.map_or(name.clone(), |folder| folder.join(&name));
        let kind = last.and_then(|last| {
            let mut kinds = SheetFile::ALL.into_iter();
            kinds.find(|kind| kind.name() == last.kind)
        });
        let kind = kind.unwrap_or(SheetFile::Pdf);
        let within = |px: u32| px.clamp(*CHART_SIDES_PX.start(), *CHART_SIDES_PX.end());
        let chart_px = last.map_or(CHART_PX, |last| last.chart_px.map(within));
        Some(Self {
            view,
            papers,
            kind,
            chart_px,
            rules: rules_against(session),
            to: FileTarget::file(&name, kind.extension()),
            running: None,
            drink: drink_said(session),
            written: None,
            height: 0.0,
        })
    }

    /// Shows kind and path, progress, and what came of writing.
    pub(super) fn ui(&mut self, ui: &mut Ui, browser: &mut FileBrowser, outbox: &mut Outbox) {
        self.finish();
        if self.kind.is_of_sheet() {
            let reader = self.view.recipe.reader.name();
            ui.label(format!("The sheet for {reader}, as it is on screen."));
        }
        if !self.rules.is_empty() {
            ui.label(RichText::new(&self.rules).color(Tokens::of(ui).caution));
        }
        let mut kind = self.kind;
        let list = ComboBox::from_label("Kind of file")
            .selected_text(kind.name())
            .height(LIST)
            .show_ui(ui, |ui| {
                for one in SheetFile::ALL {
                    ui.selectable_value(&mut kind, one, one.name());
                }
            });
        let teach =
            "PDF for print and for judges; pictures for a screen; the others for other programs";
        named(list.response, "Kind of file", teach);
        if kind != self.kind {
            self.kind = kind;
            self.to.becomes(kind.extension());
        }
        if self.kind.is_chart() {
            self.size(ui);
        }
        self.to
            .ui(ui, ("Write", Wanted::SheetName), browser, outbox);
        if let Some(job) = &self.running {
            ui.horizontal(|ui| {
                ui.add(ProgressBar::new(job.progress()).desired_width(240.0));
                if named(ui.button("Stop"), "Stop writing", "Nothing is written then").clicked() {
                    job.cancel();
                }
            });
        }
        if let Ok(laid) = &self.view.laid
            && let Some(lacks) = laid.lacks_said()
        {
            ui.label(RichText::new(format!("{lacks}: marked on the page.")).weak());
        }
        recentre(ui, &mut self.height);
    }

    /// Width and height of a chart alone.
    fn size(&mut self, ui: &mut Ui) {
        ui.horizontal(|ui| {
            ui.label("Size");
            let [width, height] = &mut self.chart_px;
            let [wide, high] = CHART_PX.map(f64::from);
            for (name, usual, side) in [
                ("Width of the chart", wide, width),
                ("Height of the chart", high, height),
            ] {
                let (least, most) = CHART_SIDES_PX.into_inner();
                let range = f64::from(least)..=f64::from(most);
                let field = NumberField::new(name, "How large the chart is, px", range);
                field.step(50.0).unit(" px").usual(usual).show(ui, side);
            }
        });
    }

    /// Begins to write; `finish` tells what came of it.
    pub(super) fn write(&mut self, ctx: &Context, replace: bool) {
        if self.running.is_some() {
            return;
        }
        let waker = ctx.clone();
        let wake = move || waker.request_repaint();
        let over = if replace {
            Over::Anything
        } else {
            Over::Nothing
        };
        match export_sheet(
            (&self.view, &self.papers),
            self.kind,
            self.chart_px,
            (self.to.path(), over),
            wake,
        ) {
            Ok(job) => self.running = Some(job),
            Err(error) => self.to.failed(&error.to_string()),
        }
    }

    /// What was written since this was asked last.
    pub(super) fn take_written(&mut self) -> Option<LastExport> {
        self.written.take()
    }

    fn finish(&mut self) {
        let Some(ended) = self.running.as_mut().and_then(exported_sheet) else {
            return;
        };
        self.running = None;
        match ended {
            Ok(paths) => {
                let said: Vec<String> = paths
                    .iter()
                    .map(|path| path.display().to_string())
                    .collect();
                self.written = Some(LastExport {
                    path: self.to.path(),
                    kind: self.kind.name().to_owned(),
                    chart_px: self.chart_px,
                    reader: self.view.recipe.reader,
                    drink: self.drink.clone(),
                    written: known_again(&paths),
                });
                self.to.came_of(Ok(said.join(", ")));
            }
            Err(SheetExportError::Written(error)) => self.to.came_of(Err(error)),
            Err(SheetExportError::Made(why)) => self.to.failed(&why),
        }
    }
}
