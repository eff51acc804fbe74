//! A page of help: a text of its own small kind, and its parts.
//!
//! The first line is `# ` and the title; `## ` begins a heading, `- ` a point of a list, `Sources: `
//! names keys of the list of sources; other lines are paragraphs.

/// A page of help.
#[derive(Clone, Copy, Debug)]
pub struct HelpPage {
    /// Short name by which the program finds it.
    pub key: &'static str,
    /// The whole text.
    pub(super) text: &'static str,
}

/// A part of a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HelpBlock {
    /// A heading.
    Heading(&'static str),
    /// A paragraph.
    Paragraph(&'static str),
    /// A point of a list.
    Point(&'static str),
    /// Keys of the list of sources, with commas.
    Sources(&'static str),
}

impl HelpPage {
    /// Its title.
    pub fn title(&self) -> &'static str {
        let first = self.text.lines().next().unwrap_or_default();
        first.strip_prefix("# ").unwrap_or(first)
    }

    /// Its parts, from top to bottom, without the title.
    pub fn blocks(&self) -> impl Iterator<Item = HelpBlock> {
        let lines = self.text.lines().skip(1).map(str::trim);
        lines.filter(|line| !line.is_empty()).map(|line| {
            if let Some(words) = line.strip_prefix("## ") {
                HelpBlock::Heading(words)
            } else if let Some(words) = line.strip_prefix("- ") {
                HelpBlock::Point(words)
            } else if let Some(keys) = line.strip_prefix("Sources: ") {
                HelpBlock::Sources(keys)
            } else {
                HelpBlock::Paragraph(line)
            }
        })
    }

    /// Keys of the sources that it names.
    pub fn sources(&self) -> impl Iterator<Item = &'static str> {
        self.blocks()
            .filter_map(|block| match block {
                HelpBlock::Sources(keys) => Some(keys.split(',').map(str::trim)),
                _ => None,
            })
            .flatten()
    }
}
