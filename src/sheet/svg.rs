//! Reads drawings that a sheet takes in; they may use the bundled fonts only and fetch nothing.

use super::fonts::for_charts;
use resvg::usvg::{FontResolver, ImageHrefResolver, Options, Tree};
use std::sync::Arc;

/// The drawing, or what is wrong with it.
pub(super) fn read_svg(svg: &str) -> Result<Arc<Tree>, String> {
    let options = Options {
        fontdb: for_charts(),
        font_family: super::fonts::FAMILY.to_owned(),
        font_resolver: FontResolver {
            select_font: FontResolver::default_font_selector(),
            select_fallback: FontResolver::default_fallback_selector(),
        },
        image_href_resolver: ImageHrefResolver {
            resolve_data: ImageHrefResolver::default_data_resolver(),
            resolve_string: Box::new(|_, _| None),
        },
        ..Options::default()
    };
    let tree = Tree::from_str(svg, &options).map_err(|error| error.to_string())?;
    Ok(Arc::new(tree))
}
