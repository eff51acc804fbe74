//! What a sheet says, without places: blocks from top to bottom.

/// A block of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// The sheet's title.
    Title {
        /// The name.
        text: String,
        /// A line below it; empty for none.
        under: String,
    },
    /// A heading; it stays with what follows.
    Heading(String),
    /// Running text; `\n` ends a line.
    Paragraph(String),
    /// Small print.
    Small(String),
    /// A list.
    List {
        /// 1, 2, 3 instead of bullets.
        numbered: bool,
        /// Its items.
        items: Vec<String>,
    },
    /// A table.
    Table {
        /// Its columns; without any head there is no row of heads.
        columns: Vec<Column>,
        /// Cells by row; missing ones are empty.
        rows: Vec<Vec<String>>,
    },
    /// A chart as SVG.
    Figure {
        /// The drawing, see [`super::chart_svg`].
        svg: String,
        /// Width, mm; the drawing is stretched to it. At most the width of the column.
        width_mm: f64,
        /// Height, mm.
        height_mm: f64,
        /// What it shows, in words, for those who cannot see it.
        alt: String,
        /// Letters in it that the fonts lack.
        lacks: Vec<char>,
    },
    /// Two columns; read left, then right.
    Pair {
        /// The left column.
        left: Vec<Block>,
        /// The right column.
        right: Vec<Block>,
        /// Share of the width that the left one takes, 0.1 to 0.9.
        share: f64,
    },
    /// A thin line across.
    Rule,
    /// Free space, mm; none at the top of a page or column.
    Space(f64),
    /// A box with a tinted ground.
    Boxed(Vec<Block>),
}

/// A column of a table.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Head; may be empty.
    pub head: String,
    /// Share of what is left; 0 is as wide as its widest cell.
    pub share: f64,
    /// Set against the right edge, as figures are.
    pub right: bool,
}

impl Column {
    /// A column of words with a share of the width.
    pub fn words(head: &str, share: f64) -> Self {
        Self {
            head: head.to_owned(),
            share,
            right: false,
        }
    }

    /// A column of figures, as wide as they need.
    pub fn figures(head: &str) -> Self {
        Self {
            head: head.to_owned(),
            share: 0.0,
            right: true,
        }
    }
}

impl Block {
    /// The first words of a block, to name it.
    pub(super) fn begins(&self) -> String {
        let first = |blocks: &[Self]| blocks.first().map(Self::begins).unwrap_or_default();
        let text = match self {
            Self::Title { text, .. }
            | Self::Heading(text)
            | Self::Paragraph(text)
            | Self::Small(text) => text.clone(),
            Self::List { items, .. } => items.first().cloned().unwrap_or_default(),
            Self::Table { columns, rows } => {
                let heads = columns.iter().map(|column| column.head.clone());
                let cells = rows.first().cloned().unwrap_or_default();
                heads
                    .chain(cells)
                    .find(|text| !text.is_empty())
                    .unwrap_or_default()
            }
            Self::Figure { alt, .. } => alt.clone(),
            Self::Pair { left, .. } => first(left),
            Self::Boxed(inner) => first(inner),
            Self::Rule | Self::Space(_) => String::new(),
        };
        let words: Vec<&str> = text.split_whitespace().take(6).collect();
        words.join(" ").chars().take(48).collect()
    }
}
