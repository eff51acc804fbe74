//! Where a field stands in a document; becomes text only when something is wrong with it.

use std::fmt;

#[derive(Clone, Copy, Debug)]
enum Part<'a> {
    Field(&'a str),
    Index(usize),
    Key(&'a str),
}

/// A path such as `specs[0].trials[2].pours[1].amount`, built without any allocation.
#[derive(Clone, Copy, Debug)]
pub(super) struct FieldPath<'a> {
    parent: Option<&'a FieldPath<'a>>,
    part: Part<'a>,
}

impl<'a> FieldPath<'a> {
    /// A field of the document itself.
    pub(super) const fn root(name: &'a str) -> Self {
        Self {
            parent: None,
            part: Part::Field(name),
        }
    }

    /// A field below this one.
    pub(super) const fn field<'b>(&'b self, name: &'b str) -> FieldPath<'b>
    where
        'a: 'b,
    {
        FieldPath {
            parent: Some(self),
            part: Part::Field(name),
        }
    }

    /// An entry of a list.
    pub(super) const fn index<'b>(&'b self, place: usize) -> FieldPath<'b>
    where
        'a: 'b,
    {
        FieldPath {
            parent: Some(self),
            part: Part::Index(place),
        }
    }

    /// An entry of a map.
    pub(super) const fn key<'b>(&'b self, name: &'b str) -> FieldPath<'b>
    where
        'a: 'b,
    {
        FieldPath {
            parent: Some(self),
            part: Part::Key(name),
        }
    }
}

impl fmt::Display for FieldPath<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(parent) = self.parent {
            parent.fmt(f)?;
        }
        match self.part {
            Part::Field(name) if self.parent.is_some() => write!(f, ".{name}"),
            Part::Field(name) => f.write_str(name),
            Part::Index(place) => write!(f, "[{place}]"),
            Part::Key(name) => write!(f, "[\"{name}\"]"),
        }
    }
}
