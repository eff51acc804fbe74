//! What a sheet can be written as.

use super::service_papers::ServicePapers;
use super::sheet_view::SheetView;
use crate::sheet::{
    Block, Laid, Layout, LayoutError, PdfError, PictureError, Recipe, chart_png, chart_svg,
    figures_table, ingredients_table, json_ld, lay_out_fitting, markdown, pdf, plain_text, png,
};
use crate::store::{PlainTable, SaveError, write_plain_table};

/// Dots per inch of a picture of a sheet.
const DPI: f64 = 200.0;
/// Dots per inch of a card for a phone: 90 mm become about 1060 points.
const CARD_DPI: f64 = 300.0;

/// Size of a chart that leaves alone, px, unless another one is asked for.
pub const CHART_PX: [u32; 2] = [1_280, 800];
/// Smallest and largest side of such a chart, px.
pub const CHART_SIDES_PX: core::ops::RangeInclusive<u32> = 200..=8_000;

/// A kind of file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetFile {
    /// Tagged PDF.
    Pdf,
    /// Pictures, one a page.
    Png,
    /// A card for a phone, as a picture.
    CardPng,
    /// Markdown.
    Markdown,
    /// Plain text.
    Text,
    /// schema.org/Recipe as JSON-LD.
    JsonLd,
    /// Figures as a table.
    FiguresCsv,
    /// The balance chart as a picture.
    ChartPng,
    /// The balance chart as a drawing.
    ChartSvg,
    /// Batch, shopping list and plan, as PDF.
    ServicePdf,
    /// The stage, as PDF.
    StagePdf,
    /// Labels of bottles, as PDF.
    LabelsPdf,
    /// The shopping list as a table.
    ShoppingCsv,
    /// The plan as a calendar.
    Calendar,
}

impl SheetFile {
    /// Every kind, in menu order.
    pub const ALL: [Self; 14] = [
        Self::Pdf,
        Self::Png,
        Self::CardPng,
        Self::Markdown,
        Self::Text,
        Self::JsonLd,
        Self::FiguresCsv,
        Self::ChartPng,
        Self::ChartSvg,
        Self::ServicePdf,
        Self::StagePdf,
        Self::LabelsPdf,
        Self::ShoppingCsv,
        Self::Calendar,
    ];

    /// The words on screen.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Pdf => "PDF",
            Self::Png => "pictures (PNG)",
            Self::CardPng => "card for a phone (PNG)",
            Self::Markdown => "Markdown",
            Self::Text => "plain text",
            Self::JsonLd => "schema.org recipe (JSON-LD)",
            Self::FiguresCsv => "figures (CSV)",
            Self::ChartPng => "chart (PNG)",
            Self::ChartSvg => "chart (SVG)",
            Self::ServicePdf => "service: batch, shopping, plan (PDF)",
            Self::StagePdf => "stage: steps, tools, spares (PDF)",
            Self::LabelsPdf => "labels (PDF)",
            Self::ShoppingCsv => "shopping list (CSV)",
            Self::Calendar => "prep plan as a calendar (ICS)",
        }
    }

    /// Whether it is the sheet of one reader; the others are the bar's.
    pub const fn is_of_sheet(self) -> bool {
        !matches!(
            self,
            Self::ServicePdf
                | Self::StagePdf
                | Self::LabelsPdf
                | Self::ShoppingCsv
                | Self::Calendar
        )
    }

    /// Whether it is a chart alone, whose size is chosen.
    pub const fn is_chart(self) -> bool {
        matches!(self, Self::ChartPng | Self::ChartSvg)
    }

    /// Extension of the file's name.
    pub const fn extension(self) -> &'static str {
        match self {
            Self::Pdf | Self::ServicePdf | Self::StagePdf | Self::LabelsPdf => "pdf",
            Self::Png | Self::CardPng | Self::ChartPng => "png",
            Self::Markdown => "md",
            Self::Text => "txt",
            Self::JsonLd => "json",
            Self::FiguresCsv | Self::ShoppingCsv => "csv",
            Self::Calendar => "ics",
            Self::ChartSvg => "svg",
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
    /// The table could not be written.
    #[error(transparent)]
    Table(#[from] SaveError),
    /// There is no calendar.
    #[error("no calendar: {0}")]
    NoCalendar(String),
    /// There is no chart, or this reader may not see it.
    #[error("this sheet shows no chart")]
    NoChart,
}

impl SheetFile {
    /// The files: what is added to the name of each (blank for the only one), and its bytes; a chart
    /// alone is as large as asked, px.
    pub fn bytes(
        self,
        view: &SheetView,
        papers: &ServicePapers,
        chart_px: [u32; 2],
    ) -> Result<Vec<(String, Vec<u8>)>, SheetFileError> {
        let laid = |laid: &Result<Laid, LayoutError>| laid.clone().map_err(SheetFileError::Layout);
        let recipe = &view.recipe;
        let one = |bytes: Vec<u8>| Ok(vec![(String::new(), bytes)]);
        let chart = || recipe.chart.as_ref().ok_or(SheetFileError::NoChart);
        let [width, height] = chart_px;
        match self {
            Self::Pdf => one(pdf(&laid(&view.laid)?)?),
            Self::Png => pictures(&laid(&view.laid)?, DPI),
            Self::CardPng => pictures(&laid(&view.card)?, CARD_DPI),
            Self::Markdown => one(markdown(recipe).into_bytes()),
            Self::Text => one(plain_text(recipe).into_bytes()),
            Self::JsonLd => one(json_ld(recipe).into_bytes()),
            Self::FiguresCsv => one(figures(recipe)?.into_bytes()),
            Self::ServicePdf => one(paper(view, &papers.pack)?),
            Self::StagePdf => one(paper(view, &papers.stage)?),
            Self::LabelsPdf => one(paper(view, &papers.labels)?),
            Self::ShoppingCsv => one(write_plain_table(&PlainTable {
                heads: papers.shopping.heads.clone(),
                rows: papers.shopping.rows.clone(),
            })?
            .into_bytes()),
            Self::Calendar => match &papers.calendar {
                Ok(text) => one(text.clone().into_bytes()),
                Err(why) => Err(SheetFileError::NoCalendar(why.clone())),
            },
            Self::ChartPng => one(chart_png(chart()?, width, height)?),
            Self::ChartSvg => {
                let [width, height] = chart_px.map(f64::from);
                one(chart_svg(chart()?, width, height, true).svg.into_bytes())
            }
        }
    }
}

/// Most pages of a paper of the service.
const MOST_PAPERS: usize = 30;

/// A paper of the service as PDF, on the sheet's own paper.
fn paper(view: &SheetView, blocks: &[Block]) -> Result<Vec<u8>, SheetFileError> {
    let layout = Layout {
        most_pages: MOST_PAPERS,
        foot: format!("{}  ·  for the bar", view.recipe.title),
        ..view.layout.clone()
    };
    let laid = lay_out_fitting(blocks, &layout, &view.about).map_err(SheetFileError::Layout)?;
    Ok(pdf(&laid)?)
}

/// Ingredients and figures as one table after the other, a blank row between them.
fn figures(recipe: &Recipe) -> Result<String, SaveError> {
    let mut text = String::new();
    for table in [ingredients_table(recipe), figures_table(recipe)] {
        if !text.is_empty() {
            text.push_str("\r\n");
        }
        text.push_str(&write_plain_table(&PlainTable {
            heads: table.heads,
            rows: table.rows,
        })?);
    }
    Ok(text)
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
