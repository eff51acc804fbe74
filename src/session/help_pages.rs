//! The pages of help, in the order of their list.

use super::help_page::HelpPage;

const fn page(key: &'static str, text: &'static str) -> HelpPage {
    HelpPage { key, text }
}

/// Pages of the window first, then what concerns all of them.
pub const HELP_PAGES: &[HelpPage] = &[
    page("balance", include_str!("../assets/help/balance.md")),
    page("house", include_str!("../assets/help/house.md")),
    page("trials", include_str!("../assets/help/trials.md")),
    page("submission", include_str!("../assets/help/submission.md")),
    page("larder", include_str!("../assets/help/larder.md")),
    page("model", include_str!("../assets/help/model.md")),
    page("sure", include_str!("../assets/help/sure.md")),
    page("files", include_str!("../assets/help/files.md")),
    page("cautions", include_str!("../assets/help/cautions.md")),
];

/// The page of that key.
pub fn help_page(key: &str) -> Option<&'static HelpPage> {
    HELP_PAGES.iter().find(|page| page.key == key)
}
