//! The structure of a PDF: what is a heading, a list, a table, a figure, in reading order.

use super::element::Role;
use super::flow::Laid;
use super::page::{Drawn, Page};
use super::pdf::{language_of, plain, pt, title_of};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Rect};
use krilla::outline::{Outline, OutlineNode};
use krilla::tagging::{
    BBox, Identifier, ListNumbering, Node, Placement, TableHeaderScope, Tag, TagGroup, TagKind,
    TagTree,
};
use std::num::NonZeroU16;

/// Collects what belongs to every element.
pub(super) struct Tags<'a> {
    laid: &'a Laid,
    content: Vec<Vec<Identifier>>,
    bounds: Vec<Option<BBox>>,
}

impl<'a> Tags<'a> {
    pub(super) fn new(laid: &'a Laid) -> Self {
        let count = laid.elements.len();
        Self {
            laid,
            content: vec![Vec::new(); count],
            bounds: vec![None; count],
        }
    }

    /// A piece of content of an element.
    pub(super) fn add(&mut self, element: usize, identifier: Identifier) {
        if let Some(content) = self.content.get_mut(element) {
            content.push(identifier);
        }
    }

    /// Where a figure stands.
    pub(super) fn bound(&mut self, element: usize, page: usize, rect: Option<Rect>) {
        if let (Some(bound), Some(rect)) = (self.bounds.get_mut(element), rect) {
            *bound = Some(BBox::new(page, rect));
        }
    }

    /// The tree; elements stand behind those around them, so it is put together from the end.
    pub(super) fn tree(mut self) -> TagTree {
        let count = self.laid.elements.len();
        let mut children: Vec<Vec<Node>> = (0..count).map(|_| Vec::new()).collect();
        let mut top = Vec::new();
        for (place, element) in self.laid.elements.iter().enumerate().rev() {
            let kind = kind(&element.role, self.bounds[place]);
            let mut group = TagGroup::new(kind);
            for identifier in std::mem::take(&mut self.content[place]) {
                group.push(identifier);
            }
            // Children were met from the last to the first.
            for child in std::mem::take(&mut children[place]).into_iter().rev() {
                group.push(child);
            }
            let node = Node::Group(group);
            match element.parent {
                Some(parent) if parent < place => children[parent].push(node),
                _ => top.push(node),
            }
        }
        let language = language_of(self.laid);
        let mut tree = TagTree::new().with_lang(Some(language));
        for node in top.into_iter().rev() {
            tree.push(node);
        }
        tree
    }
}

fn kind(role: &Role, bounds: Option<BBox>) -> TagKind {
    match role {
        Role::Heading { level, words } => {
            let level = NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN);
            Tag::Hn(level, Some(plain(words))).into()
        }
        Role::Paragraph => Tag::P.into(),
        Role::List { numbered: true } => Tag::L(ListNumbering::Decimal).into(),
        Role::List { numbered: false } => Tag::L(ListNumbering::Disc).into(),
        Role::ListItem => Tag::LI.into(),
        Role::ListLabel => Tag::Lbl.into(),
        Role::ListBody => Tag::LBody.into(),
        Role::Table => Tag::Table.into(),
        Role::TableHead => Tag::THead.into(),
        Role::TableBody => Tag::TBody.into(),
        Role::TableRow => Tag::TR.into(),
        Role::HeadCell => Tag::TH(TableHeaderScope::Column).into(),
        Role::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        Role::DataCell => Tag::TD.into(),
        Role::Figure { alternative } => Tag::Figure(Some(plain(alternative)))
            .with_bbox(bounds)
            .with_placement(Some(Placement::Block))
            .into(),
        Role::Aside => Tag::Div.into(),
    }
}

/// Headings to jump to; the title of the document if there is none.
pub(super) fn outline(laid: &Laid) -> Outline {
    let mut outline = Outline::new();
    let mut title: Option<OutlineNode> = None;
    for (place, element) in laid.elements.iter().enumerate() {
        let Role::Heading { level, words } = &element.role else {
            continue;
        };
        let Some(destination) = destination(laid, place) else {
            continue;
        };
        let node = OutlineNode::new(plain(words), destination);
        match title.as_mut() {
            Some(title) if *level > 1 => title.push_child(node),
            _ => {
                if let Some(before) = title.replace(node) {
                    outline.push_child(before);
                }
            }
        }
    }
    let whole = || {
        let top = XyzDestination::new(0, Point::from_xy(0.0, 0.0));
        OutlineNode::new(title_of(laid), top)
    };
    outline.push_child(title.unwrap_or_else(whole));
    outline
}

/// Where an element begins.
fn destination(laid: &Laid, element: usize) -> Option<XyzDestination> {
    let on = |page: &Page| {
        page.items.iter().find_map(|item| match &item.drawn {
            Drawn::Text(run) if item.element == Some(element) => {
                let top = run.baseline_mm - 1.2 * run.size_pt * super::page::MM_PER_PT;
                Some(Point::from_xy(pt(run.x_mm), pt(top)))
            }
            _ => None,
        })
    };
    let mut pages = laid.pages.iter().enumerate();
    pages.find_map(|(index, page)| Some(XyzDestination::new(index, on(page)?)))
}
