//! The shortest ballot that a drink can be developed with.

use crate::model::{Attribute, TastingMethod};

/// What a quick ballot asks besides liking (our convention, no source): what a pour can change.
pub const QUICK_FORM: [Attribute; 4] = [
    Attribute::Sweet,
    Attribute::Sour,
    Attribute::Strong,
    Attribute::Dilution,
];

/// Just-about-right scales for [`QUICK_FORM`], and liking.
pub fn quick_form() -> TastingMethod {
    TastingMethod::JustRight {
        attributes: QUICK_FORM.to_vec(),
    }
}
