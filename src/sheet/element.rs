//! What the things on the pages mean, for screen readers: headings, paragraphs, lists, tables.

/// What an element is.
#[derive(Clone, Debug, PartialEq)]
pub enum Role {
    /// A heading with its level from 1 and its words.
    Heading {
        /// 1 is the title.
        level: u16,
        /// The words.
        words: String,
    },
    /// A paragraph.
    Paragraph,
    /// A list.
    List {
        /// With numbers.
        numbered: bool,
    },
    /// An item of a list.
    ListItem,
    /// Its number or bullet.
    ListLabel,
    /// Its text.
    ListBody,
    /// A table.
    Table,
    /// The row of heads.
    TableHead,
    /// The rows of data.
    TableBody,
    /// A row.
    TableRow,
    /// The head of a column.
    HeadCell,
    /// The head of a row, where columns have none.
    RowHead,
    /// A cell of data.
    DataCell,
    /// A chart with what it shows in words.
    Figure {
        /// The words.
        alternative: String,
    },
    /// A box beside the text.
    Aside,
}

/// An element of the document.
#[derive(Clone, Debug, PartialEq)]
pub struct Element {
    /// What it is.
    pub role: Role,
    /// The element around it; `None` is the document.
    pub parent: Option<usize>,
}
