//! A sheet laid out, for the window, the files and the verbs alike.

use super::open_document::Session;
use super::recipe_sheet::recipe;
use crate::model::{PaperSize, Reader};
use crate::sheet::{
    About, Laid, Layout, LayoutError, Paper, Recipe, card_blocks, lay_out, lay_out_fitting,
    sheet_blocks,
};

/// Sizes of running text that are tried to keep a sheet on one page, pt.
const ONE_PAGE_PT: [f64; 3] = [9.5, 9.0, 8.5];

/// More than that over one page is two pages, mm.
const HALF_A_PAGE_MM: f64 = 130.0;

/// One version of the sheet of the trial on screen.
#[derive(Clone, Debug)]
pub struct SheetView {
    /// What it says.
    pub recipe: Recipe,
    /// What its files say of themselves.
    pub about: About,
    /// How its pages are laid out.
    pub layout: Layout,
    /// Its pages, or why there are none.
    pub laid: Result<Laid, LayoutError>,
    /// The same in short for a phone, or why there is none.
    pub card: Result<Laid, LayoutError>,
}

/// Lays out the sheet of the trial on screen for a reader; `None` without a drink.
pub fn sheet_view(session: &Session, reader: Reader) -> Option<SheetView> {
    let recipe = recipe(session, reader)?;
    let paper = match session.spec()?.entry.paper {
        PaperSize::A4 => Paper::A4,
        PaperSize::Letter => Paper::Letter,
    };
    let about = About {
        title: recipe.title.clone(),
        language: "en".to_owned(),
        author: recipe.maker.clone(),
        date: date_of(&recipe.day),
    };
    let foot = foot(&recipe);
    let layout = Layout {
        margins_mm: 14.0,
        size_pt: 9.5,
        foot,
        ..Layout::on(paper)
    };
    let laid = fitted(&recipe, &layout, &about);
    let card = lay_out_fitting(&card_blocks(&recipe), &Layout::on(Paper::Card), &about);
    Some(SheetView {
        recipe,
        about,
        layout,
        laid,
        card,
    })
}

/// On one page where it fits without small print, else on two.
fn fitted(recipe: &Recipe, layout: &Layout, about: &About) -> Result<Laid, LayoutError> {
    let blocks = sheet_blocks(recipe, false);
    for size_pt in ONE_PAGE_PT {
        let one = Layout {
            most_pages: 1,
            size_pt,
            ..layout.clone()
        };
        match lay_out(&blocks, &one, about) {
            // A page and a half never becomes one.
            Err(LayoutError::TooLong(over)) if over.too_much_mm > HALF_A_PAGE_MM => break,
            Err(LayoutError::TooLong(_) | LayoutError::TooWide { .. }) => {}
            other => return other,
        }
    }
    lay_out_fitting(&sheet_blocks(recipe, true), layout, about)
}

/// Name, version and reader, at the foot of every page.
fn foot(recipe: &Recipe) -> String {
    let reader = format!("for {}", recipe.reader.name());
    let mut parts = vec![recipe.title.as_str(), &recipe.version, &reader];
    parts.retain(|part| !part.is_empty());
    parts.join("  ·  ")
}

/// Year, month and day of an ISO 8601 day.
fn date_of(day: &str) -> Option<(u16, u8, u8)> {
    let mut parts = day.split('-');
    let year = parts.next()?.parse().ok()?;
    let month = parts.next()?.parse().ok()?;
    Some((year, month, parts.next()?.parse().ok()?))
}
