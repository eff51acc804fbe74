//! Writes drawings as SVG text: the same numbers in, the same letters out.

use super::fonts::{FAMILY, Face, bundled};
use super::ink::Ink;
use super::shape::{Piece, cleaned, shape};
use std::collections::BTreeSet;
use std::fmt::Write as _;

/// A drawing under construction; lengths are in user units (px).
pub(super) struct SvgText {
    body: String,
    /// Letters that the fonts lack.
    pub(super) lacks: BTreeSet<char>,
}

/// How text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

/// How a shape is drawn.
#[derive(Clone, Debug, Default)]
pub(super) struct Paint {
    /// Colour and opacity of its inside.
    pub(super) fill: Option<(String, f64)>,
    /// Colour, width and opacity of its outline.
    pub(super) line: Option<(String, f64, f64)>,
    /// Dash and gap.
    pub(super) dash: Option<[f64; 2]>,
}

impl Paint {
    /// Filled.
    pub(super) fn filled(ink: &str, opacity: f64) -> Self {
        Self {
            fill: Some((ink.to_owned(), opacity)),
            ..Self::default()
        }
    }

    /// Outlined.
    pub(super) fn lined(ink: &str, width: f64, opacity: f64) -> Self {
        Self {
            line: Some((ink.to_owned(), width, opacity)),
            ..Self::default()
        }
    }

    /// With an outline as well.
    pub(super) fn and_line(self, ink: &str, width: f64, opacity: f64) -> Self {
        Self {
            line: Some((ink.to_owned(), width, opacity)),
            ..self
        }
    }

    fn attributes(&self) -> String {
        let fill = match &self.fill {
            Some((ink, opacity)) => {
                let opacity = opacity_of("fill", *opacity);
                format!(" fill=\"{ink}\"{opacity}")
            }
            None => " fill=\"none\"".to_owned(),
        };
        let line = self.line.as_ref().map(|(ink, width, opacity)| {
            let (width, opacity) = (figure(*width), opacity_of("stroke", *opacity));
            format!(" stroke=\"{ink}\" stroke-width=\"{width}\"{opacity}")
        });
        let dash = self.dash.map(|[dash, gap]| {
            let (dash, gap) = (figure(dash), figure(gap));
            format!(" stroke-dasharray=\"{dash} {gap}\"")
        });
        [fill, line.unwrap_or_default(), dash.unwrap_or_default()].concat()
    }
}

fn opacity_of(what: &str, opacity: f64) -> String {
    if opacity < 1.0 {
        format!(" {what}-opacity=\"{}\"", figure(opacity))
    } else {
        String::new()
    }
}

/// A number with at most two decimals, "12.5"; never "-0".
pub(super) fn figure(value: f64) -> String {
    let value = if value.is_finite() { value } else { 0.0 };
    let rounded = (value * 100.0).round() / 100.0;
    format!("{}", if rounded == 0.0 { 0.0 } else { rounded })
}

/// Text that stands in XML as it is.
pub(super) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&apos;"),
            // XML 1.0 (fifth edition), 2.2: no other controls and no noncharacters.
            '\t' | '\n' | '\r' => out.push(' '),
            _ if letter.is_control() || u32::from(letter) & 0xFFFE == 0xFFFE => {
                out.push('\u{FFFD}');
            }
            _ => out.push(letter),
        }
    }
    out
}

/// Width of text, px.
pub(super) fn text_width(text: &str, size: f64) -> f64 {
    let Some(fonts) = bundled() else {
        return 0.6 * size * text.chars().count() as f64;
    };
    let pieces = shape(fonts, Face::Text, text);
    pieces.iter().map(Piece::width).sum::<f64>() * size
}

impl SvgText {
    pub(super) fn new() -> Self {
        Self {
            body: String::new(),
            lacks: BTreeSet::new(),
        }
    }

    /// The text as the fonts can draw it: a letter that they lack is kept in mind and becomes "�".
    pub(super) fn drawable(&mut self, text: &str) -> String {
        let text = cleaned(text).replace('\n', " ");
        let Some(fonts) = bundled() else {
            return text;
        };
        let mut drawn = String::with_capacity(text.len());
        for piece in shape(fonts, Face::Text, &text) {
            match piece {
                Piece::Run { text, .. } => drawn.push_str(&text),
                Piece::Lacking(letter) => {
                    self.lacks.insert(letter);
                    drawn.push('\u{FFFD}');
                }
            }
        }
        drawn
    }

    fn add(&mut self, element: std::fmt::Arguments<'_>) {
        // Writing to a text never fails.
        let written = self.body.write_fmt(element);
        debug_assert!(written.is_ok(), "a text takes all");
        self.body.push('\n');
    }

    /// Lines from point to point.
    pub(super) fn path(&mut self, points: &[[f64; 2]], closed: bool, paint: &Paint) {
        let known = points.iter().filter(|at| at.iter().all(|x| x.is_finite()));
        let steps = known.enumerate().map(|(place, [x, y])| {
            let verb = if place == 0 { 'M' } else { 'L' };
            format!("{verb}{} {}", figure(*x), figure(*y))
        });
        let way = steps.collect::<Vec<_>>().concat();
        if way.is_empty() {
            return;
        }
        let end = if closed { "Z" } else { "" };
        let join = if closed {
            ""
        } else {
            " stroke-linejoin=\"round\""
        };
        self.add(format_args!(
            "<path d=\"{way}{end}\"{}{join}/>",
            paint.attributes()
        ));
    }

    /// A disc or a ring.
    pub(super) fn circle(&mut self, [x, y]: [f64; 2], radius: f64, paint: &Paint) {
        let (x, y, radius) = (figure(x), figure(y), figure(radius));
        let paint = paint.attributes();
        self.add(format_args!(
            "<circle cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"{paint}/>"
        ));
    }

    /// A rectangle: left, top, right, bottom.
    pub(super) fn rect(&mut self, [left, top, right, bottom]: [f64; 4], paint: &Paint) {
        let (x, y) = (figure(left), figure(top));
        let (width, height) = (figure(right - left), figure(bottom - top));
        let paint = paint.attributes();
        self.add(format_args!(
            "<rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"{paint}/>"
        ));
    }

    /// Text whose baseline is at that place; it must be drawable.
    pub(super) fn text(
        &mut self,
        [x, y]: [f64; 2],
        text: &str,
        (size, ink, anchor): (f64, &str, Anchor),
    ) {
        let (x, y, size) = (figure(x), figure(y), figure(size));
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => " text-anchor=\"middle\"",
            Anchor::End => " text-anchor=\"end\"",
        };
        let text = escaped(text);
        self.add(format_args!(
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" fill=\"{ink}\"{anchor} xml:space=\"preserve\">{text}</text>"
        ));
    }

    /// What is drawn until [`SvgText::end_clip`] is seen inside a rectangle only.
    pub(super) fn begin_clip(&mut self, [left, top, right, bottom]: [f64; 4]) {
        let (x, y) = (figure(left), figure(top));
        let (width, height) = (figure(right - left), figure(bottom - top));
        self.add(format_args!(
            "<clipPath id=\"frame\"><rect x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"/></clipPath>\n<g clip-path=\"url(#frame)\">"
        ));
    }

    /// Ends what is clipped.
    pub(super) fn end_clip(&mut self) {
        self.add(format_args!("</g>"));
    }

    /// A title in bold; it must be drawable.
    pub(super) fn title(&mut self, [x, y]: [f64; 2], text: &str, (size, ink): (f64, &str)) {
        let (x, y, size) = (figure(x), figure(y), figure(size));
        let text = escaped(text);
        self.add(format_args!(
            "<text x=\"{x}\" y=\"{y}\" font-size=\"{size}\" font-weight=\"bold\" fill=\"{ink}\" xml:space=\"preserve\">{text}</text>"
        ));
    }

    /// The whole drawing on white paper, that far from its edges, with a title and a description for
    /// screen readers.
    pub(super) fn finish(
        self,
        [width, height]: [f64; 2],
        padding: f64,
        [title, description]: [&str; 2],
    ) -> String {
        let (width, height) = (figure(width), figure(height));
        let (title, description) = (escaped(title), escaped(description));
        let (padding, paper) = (figure(padding), Ink::Paper.hex());
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
             viewBox=\"0 0 {width} {height}\" font-family=\"{FAMILY}, sans-serif\" role=\"img\">\n\
             <title>{title}</title>\n<desc>{description}</desc>\n\
             <rect width=\"{width}\" height=\"{height}\" fill=\"{paper}\"/>\n\
             <g transform=\"translate({padding} {padding})\">\n{}</g>\n</svg>\n",
            self.body
        )
    }
}
