//! The verbs that hand a drink over: its sheet, and what is prepared when.

use super::arguments::Arguments;
use super::run::CliError;
use crate::session::{
    CHART_PX, ServicePapers, Session, SheetFile, SheetView, service_papers, service_text,
    sheet_view, write_sheet,
};
use crate::sheet::Laid;
use std::path::Path;

/// Writes the sheet to the file that was named, or gives it as text.
pub(super) fn sheet(session: &Session, asked: &Arguments) -> Result<String, CliError> {
    let view = sheet_view(session, asked.reader).ok_or(CliError::NoDrink)?;
    let papers = service_papers(session).ok_or(CliError::NoDrink)?;
    let view = (&view, &papers);
    let Some(path) = &asked.out else {
        let kind = if asked.json {
            SheetFile::JsonLd
        } else {
            SheetFile::Text
        };
        return text(view, kind);
    };
    let kind = kind_of(path)?;
    write(view, (kind, asked.size.unwrap_or(CHART_PX)), path)
}

fn text((view, papers): (&SheetView, &ServicePapers), kind: SheetFile) -> Result<String, CliError> {
    let files = kind
        .bytes(view, papers, CHART_PX)
        .map_err(|error| CliError::Model(error.to_string()))?;
    let texts = files
        .iter()
        .map(|(_, bytes)| String::from_utf8_lossy(bytes).into_owned());
    Ok(texts.collect())
}

/// The kind of file that a name asks for.
fn kind_of(path: &Path) -> Result<SheetFile, CliError> {
    let extension = path.extension().and_then(|kind| kind.to_str());
    let found = SheetFile::ALL
        .into_iter()
        .find(|kind| extension.is_some_and(|said| said.eq_ignore_ascii_case(kind.extension())));
    found.ok_or_else(|| {
        let mut known: Vec<String> = Vec::new();
        for kind in SheetFile::ALL {
            let extension = format!(".{}", kind.extension());
            if !known.contains(&extension) {
                known.push(extension);
            }
        }
        CliError::Model(format!(
            "{}: a sheet is written as {}",
            path.display(),
            known.join(", ")
        ))
    })
}

/// Writes every file of a kind; says which, for there may be one a page, and what the font lacks.
fn write(
    (view, papers): (&SheetView, &ServicePapers),
    (kind, size): (SheetFile, [u32; 2]),
    path: &Path,
) -> Result<String, CliError> {
    let files = kind
        .bytes(view, papers, size)
        .map_err(|error| CliError::Model(error.to_string()))?;
    let written = write_sheet(&files, path, true).map_err(|error| CliError::Write {
        path: path.to_owned(),
        reason: error.to_string(),
    })?;
    let mut said: Vec<String> = Vec::new();
    if written.len() > 1 {
        said.extend(written.iter().map(|path| path.display().to_string()));
    }
    let has_pages = matches!(kind, SheetFile::Pdf | SheetFile::Png);
    let laid = view.laid.as_ref().ok().filter(|_| has_pages);
    let lacks = laid.and_then(Laid::lacks_said);
    said.extend(lacks.map(|lacks| format!("{lacks}: marked in the sheet.")));
    said.push(String::new());
    Ok(said.join("\n"))
}

/// Prints what is bought and prepared for a service, or writes it: as a calendar (.ics), as PDF, or as
/// a table of what is bought (.csv).
pub(super) fn prep(session: &Session, asked: &Arguments) -> Result<String, CliError> {
    let view = sheet_view(session, asked.reader).ok_or(CliError::NoDrink)?;
    let papers = service_papers(session).ok_or(CliError::NoDrink)?;
    let Some(path) = &asked.out else {
        return Ok(service_text(session));
    };
    let extension = path.extension().and_then(|kind| kind.to_str());
    let kind = match extension {
        Some("ics") => SheetFile::Calendar,
        Some("pdf") => SheetFile::ServicePdf,
        Some("csv") => SheetFile::ShoppingCsv,
        _ => {
            let path = path.display();
            let words = format!("{path}: a preparation is written as .ics, .pdf, .csv");
            return Err(CliError::Model(words));
        }
    };
    write((&view, &papers), (kind, CHART_PX), path)
}
