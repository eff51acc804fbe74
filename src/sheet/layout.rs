//! On which paper, how large, and what cannot be laid out.

/// A paper size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 210 × 297 mm (ISO 216).
    A4,
    /// 215.9 × 279.4 mm (ANSI/ASME Y14.1, size A).
    Letter,
    /// 90 × 160 mm: fills the screen of a phone.
    Card,
}

impl Paper {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::A4, Self::Letter, Self::Card];

    /// Width and height, mm.
    pub const fn size_mm(self) -> [f64; 2] {
        match self {
            Self::A4 => [210.0, 297.0],
            Self::Letter => [215.9, 279.4],
            Self::Card => [90.0, 160.0],
        }
    }

    /// "A4".
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "US Letter",
            Self::Card => "Card for a phone",
        }
    }
}

/// How blocks become pages.
#[derive(Clone, Debug, PartialEq)]
pub struct Layout {
    /// Paper.
    pub paper: Paper,
    /// Free space at each edge, mm.
    pub margins_mm: f64,
    /// Size of running text, pt; all other sizes follow it.
    pub size_pt: f64,
    /// On more pages than that it is refused.
    pub most_pages: usize,
    /// A line at the foot of every page; empty for none.
    pub foot: String,
}

impl Layout {
    /// The usual layout on a paper.
    pub fn on(paper: Paper) -> Self {
        let (margins_mm, size_pt) = match paper {
            Paper::A4 | Paper::Letter => (20.0, 10.0),
            Paper::Card => (7.0, 8.5),
        };
        Self {
            paper,
            margins_mm,
            size_pt,
            most_pages: 2,
            foot: String::new(),
        }
    }
}

/// What the document says of itself.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct About {
    /// Title.
    pub title: String,
    /// Language of the text, "en" (BCP 47).
    pub language: String,
    /// Who made it.
    pub author: Option<String>,
    /// Year, month and day; none is written if none is given.
    pub date: Option<(u16, u8, u8)>,
}

/// By how much and where a text is too long.
#[derive(Clone, Debug, PartialEq)]
pub struct Overflow {
    /// On how many pages it was to stand.
    pub pages: usize,
    /// Height of what is left over, mm.
    pub too_much_mm: f64,
    /// The same in lines of running text, rounded up.
    pub lines: usize,
    /// Place of the first block that does not fit, from 0.
    pub block: usize,
    /// Its first words.
    pub begins: String,
}

/// Why blocks cannot be laid out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LayoutError {
    /// The text is longer than the pages.
    #[error(
        "too long for {} by about {}, {:.0} mm: “{}” and what follows does not fit",
        counted(.0.pages, "page"), counted(.0.lines, "line"), .0.too_much_mm, .0.begins
    )]
    TooLong(Overflow),
    /// A figure or a row of a table is taller than a page.
    #[error("taller than a page: “{begins}”")]
    TooTall {
        /// Place of the block, from 0.
        block: usize,
        /// Its first words.
        begins: String,
    },
    /// A column is narrower than its letters, or a figure wider than its column.
    #[error("too wide for its column by {too_much_mm:.0} mm: “{begins}”")]
    TooWide {
        /// Missing width, mm.
        too_much_mm: f64,
        /// Place of the block, from 0.
        block: usize,
        /// Its first words.
        begins: String,
    },
    /// A chart that is no drawing.
    #[error("the figure “{begins}” cannot be read: {reason}")]
    Figure {
        /// Place of the block, from 0.
        block: usize,
        /// Its first words.
        begins: String,
        /// What is wrong.
        reason: String,
    },
    /// A size or a margin that is no length.
    #[error("{name} must be between {from} and {to} {unit}")]
    Length {
        /// Which one.
        name: &'static str,
        /// Least.
        from: f64,
        /// Most.
        to: f64,
        /// Its unit.
        unit: &'static str,
    },
    /// The program was built with broken font files.
    #[error("the bundled fonts cannot be read")]
    Fonts,
}

/// "1 page", "2 pages".
fn counted(count: usize, noun: &str) -> String {
    let ending = if count == 1 { "" } else { "s" };
    format!("{count} {noun}{ending}")
}
