//! What a sheet can be written as.

use super::sheet_view::SheetView;
use crate::sheet::{Laid, LayoutError, PdfError, PictureError, pdf, png};

/// Dots per inch of a picture of a sheet.
const DPI: f64 = 200.0;
/// Dots per inch of a card for a phone: 90 mm become about 1060 points.
const CARD_DPI: f64 = 300.0;

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetFile {
    /// Tagged PDF.
    Pdf,
    /// Pictures, one a page.
    Png,
    /// A card for a phone, as a picture.
    CardPng,
}

impl SheetFile {
    /// Every kind, in menu order.
    pub const ALL: [Self; 3] = [Self::Pdf, Self::Png, Self::CardPng];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pdf => "PDF",
            Self::Png => "pictures (PNG)",
            Self::CardPng => "card for a phone (PNG)",
        }
    }

    /// Extension of the file's name.
    pub const fn extension(self) -> &'static str {
        match self {
            Self::Pdf => "pdf",
            Self::Png | Self::CardPng => "png",
        }
    }
}

/// Why a file cannot be made.
#[derive(Debug, thiserror::Error)]
pub enum SheetFileError {
    /// The sheet is too long or too wide.
    #[error("the sheet is {0}")]
    Layout(LayoutError),
    /// The PDF could not be made.
    #[error(transparent)]
    Pdf(#[from] PdfError),
    /// The picture could not be made.
    #[error(transparent)]
    Picture(#[from] PictureError),
}

impl SheetFile {
    /// The files: what is added to the name of each (blank for the only one), and its bytes.
    pub fn bytes(self, view: &SheetView) -> Result<Vec<(String, Vec<u8>)>, SheetFileError> {
        let laid = |laid: &Result<Laid, LayoutError>| laid.clone().map_err(SheetFileError::Layout);
        match self {
            Self::Pdf => Ok(vec![(String::new(), pdf(&laid(&view.laid)?)?)]),
            Self::Png => pictures(&laid(&view.laid)?, DPI),
            Self::CardPng => pictures(&laid(&view.card)?, CARD_DPI),
        }
    }
}

fn pictures(laid: &Laid, dpi: f64) -> Result<Vec<(String, Vec<u8>)>, SheetFileError> {
    let only = laid.pages.len() == 1;
    let pages = laid.pages.iter().enumerate();
    pages
        .map(|(place, page)| {
            let behind = if only {
                String::new()
            } else {
                format!("-{}", place + 1)
            };
            Ok((behind, png(page, dpi)?))
        })
        .collect()
}
