//! Pages as PDF that a screen reader can read (PDF/UA-1, ISO 14289-1): tagged, with titles,
//! languages and descriptions; fonts are embedded as far as they are used, charts stay vectors.
//!
//! The same pages give the same bytes: nothing is read from a clock or drawn at random.

use super::flow::Laid;
use super::fonts::{Face, bundled};
use super::ink::Ink;
use super::lacking::{Box4, lacking_marks};
use super::page::{Area, ChartBox, Drawn, LackingMark, MM_PER_PT, Page, TextRun};
use super::pdf_tags::{Tags, outline};
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::geom::{PathBuilder, Point, Rect, Size, Transform};
use krilla::metadata::{DateTime, Metadata, TextDirection};
use krilla::page::PageSettings;
use krilla::paint::Fill;
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, Identifier, SpanTag};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
use krilla_svg::{SurfaceExt, SvgSettings};

/// Why no PDF comes out.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PdfError {
    /// The bundled fonts or a page size are broken.
    #[error("the PDF cannot be begun: {0}")]
    Begun(&'static str),
    /// What was asked for cannot be made accessible or written.
    #[error("the PDF cannot be written: {0}")]
    Written(String),
}

/// What is needed to draw.
struct Pen {
    fonts: Vec<Font>,
}

/// The pages as a PDF file.
pub fn pdf(laid: &Laid) -> Result<Vec<u8>, PdfError> {
    let configuration = ConfigurationBuilder::new()
        .with_accessibility_validator(Accessibility::UA1)
        .finish()
        .map_err(|error| PdfError::Written(format!("{error:?}")))?;
    let mut document = Document::new_with(SerializeSettings {
        configuration,
        ..SerializeSettings::default()
    });
    let fonts = Face::ALL.map(|face| Font::new(face.data().into(), 0));
    let fonts: Option<Vec<Font>> = fonts.into_iter().collect();
    let pen = Pen {
        fonts: fonts.ok_or(PdfError::Begun("a bundled font is broken"))?,
    };
    let mut tags = Tags::new(laid);
    for (index, page) in laid.pages.iter().enumerate() {
        let size = [page.width_mm, page.height_mm].map(pt);
        let settings = PageSettings::from_wh(size[0], size[1]);
        let settings = settings.ok_or(PdfError::Begun("the page has no size"))?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        pen.page(&mut surface, page, index, &mut tags);
        surface.finish();
        sheet.finish();
    }
    document.set_outline(outline(laid));
    document.set_tag_tree(tags.tree());
    document.set_metadata(metadata(laid));
    document
        .finish()
        .map_err(|error| PdfError::Written(error.to_string()))
}

fn metadata(laid: &Laid) -> Metadata {
    let about = &laid.about;
    let mut metadata = Metadata::new()
        .title(title_of(laid))
        .language(language_of(laid))
        .creator("Equipour".to_owned())
        .producer("Equipour".to_owned())
        .text_direction(TextDirection::LeftToRight);
    if let Some(author) = &about.author {
        metadata = metadata.authors(vec![plain(author)]);
    }
    if let Some((year, month, day)) = about.date {
        metadata = metadata.creation_date(DateTime::new(year).month(month).day(day));
    }
    metadata
}

/// Text on one line without controls, which have no place in what a PDF says of itself.
pub(super) fn plain(text: &str) -> String {
    let spaced = text
        .chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter });
    spaced.collect::<String>().trim().to_owned()
}

/// The title; PDF/UA wants one.
pub(super) fn title_of(laid: &Laid) -> String {
    let title = plain(&laid.about.title);
    if title.is_empty() {
        "Sheet".to_owned()
    } else {
        title
    }
}

/// The language; PDF/UA wants one.
pub(super) fn language_of(laid: &Laid) -> String {
    let language = plain(&laid.about.language);
    if language.is_empty() {
        "en".to_owned()
    } else {
        language
    }
}

/// Millimetres as points.
pub(super) fn pt(mm: f64) -> f32 {
    (mm / MM_PER_PT) as f32
}

fn fill(ink: Ink) -> Fill {
    let [r, g, b] = ink.rgb();
    Fill {
        paint: krilla::color::rgb::Color::new(r, g, b).into(),
        ..Fill::default()
    }
}

/// An area in points.
pub(super) fn rect(area: &Area) -> Option<Rect> {
    Rect::from_xywh(
        pt(area.x_mm),
        pt(area.y_mm),
        pt(area.width_mm),
        pt(area.height_mm),
    )
}

impl Pen {
    fn page(&self, surface: &mut Surface<'_>, page: &Page, index: usize, tags: &mut Tags) {
        for item in &page.items {
            let identifier = match &item.drawn {
                Drawn::Text(run) => self.text(surface, run, item.element.is_some()),
                Drawn::Lacking(mark) => self.lacking(surface, mark, item.element.is_some()),
                Drawn::Rectangle(area, ink) => rectangle(surface, area, *ink),
                Drawn::Chart(chart) => figure(surface, chart, item.element.is_some()),
            };
            if let Some(element) = item.element {
                tags.add(element, identifier);
                if let Drawn::Chart(chart) = &item.drawn {
                    tags.bound(element, index, rect(&chart.area));
                }
            }
        }
    }

    fn text(&self, surface: &mut Surface<'_>, run: &TextRun, meant: bool) -> Identifier {
        let identifier = surface.start_tagged(tag(SpanTag::empty(), meant));
        surface.set_fill(Some(fill(run.ink)));
        self.glyphs(surface, run);
        surface.end_tagged();
        identifier
    }

    fn glyphs(&self, surface: &mut Surface<'_>, run: &TextRun) {
        let glyphs: Vec<KrillaGlyph> = run
            .glyphs
            .iter()
            .map(|glyph| {
                KrillaGlyph::new(
                    GlyphId::new(u32::from(glyph.id)),
                    glyph.advance as f32,
                    glyph.dx as f32,
                    glyph.dy as f32,
                    0.0,
                    glyph.text.clone(),
                    None,
                )
            })
            .collect();
        let Some(font) = self.fonts.get(run.face.index()) else {
            return;
        };
        let start = Point::from_xy(pt(run.x_mm), pt(run.baseline_mm));
        let size = run.size_pt as f32;
        surface.draw_glyphs(start, &glyphs, font.clone(), &run.text, size, false);
    }

    /// A box with a code point, which reads as the letter that it stands for.
    fn lacking(&self, surface: &mut Surface<'_>, mark: &LackingMark, meant: bool) -> Identifier {
        let text = readable(mark.letter);
        let span = SpanTag::empty().with_actual_text(Some(&text));
        let identifier = surface.start_tagged(tag(span, meant));
        if let Some(fonts) = bundled() {
            let (frame, digits) = lacking_marks(fonts, mark);
            surface.set_fill(Some(fill(mark.ink)));
            fill_boxes(surface, &frame);
            for run in &digits {
                self.glyphs(surface, run);
            }
        }
        surface.end_tagged();
        identifier
    }
}

/// What a reader hears for a letter: PDF/UA has no place for controls and private letters.
fn readable(letter: char) -> String {
    let code = u32::from(letter);
    let private = (0xE000..=0xF8FF).contains(&code) || code >= 0xF_0000;
    let none = letter.is_control() || code & 0xFFFE == 0xFFFE || private;
    if none { '\u{FFFD}' } else { letter }.to_string()
}

fn tag(span: SpanTag<'_>, meant: bool) -> ContentTag<'_> {
    if meant {
        ContentTag::Span(span)
    } else {
        ContentTag::Artifact(Artifact::with_kind(ArtifactType::PaginationOther))
    }
}

fn fill_boxes(surface: &mut Surface<'_>, boxes: &[Box4]) {
    let mut path = PathBuilder::new();
    for [left, top, right, bottom] in boxes {
        if let Some(rect) = Rect::from_ltrb(pt(*left), pt(*top), pt(*right), pt(*bottom)) {
            path.push_rect(rect);
        }
    }
    if let Some(path) = path.finish() {
        surface.draw_path(&path);
    }
}

fn rectangle(surface: &mut Surface<'_>, area: &Area, ink: Ink) -> Identifier {
    let artifact = Artifact::with_kind(ArtifactType::Layout);
    let identifier = surface.start_tagged(ContentTag::Artifact(artifact));
    surface.set_fill(Some(fill(ink)));
    let right = area.x_mm + area.width_mm;
    let bottom = area.y_mm + area.height_mm;
    fill_boxes(surface, &[[area.x_mm, area.y_mm, right, bottom]]);
    surface.end_tagged();
    identifier
}

fn figure(surface: &mut Surface<'_>, chart: &ChartBox, meant: bool) -> Identifier {
    let content = if meant {
        ContentTag::Other
    } else {
        ContentTag::Artifact(Artifact::with_kind(ArtifactType::Layout))
    };
    let identifier = surface.start_tagged(content);
    let area = &chart.area;
    let place = Transform::from_translate(pt(area.x_mm), pt(area.y_mm));
    if let Some(size) = Size::from_wh(pt(area.width_mm), pt(area.height_mm)) {
        surface.push_transform(&place);
        let drawn = surface.draw_svg(&chart.tree, size, SvgSettings::default());
        debug_assert!(drawn.is_some(), "a drawing always has a size");
        surface.pop();
    }
    surface.end_tagged();
    identifier
}
