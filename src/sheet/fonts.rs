//! The bundled fonts: sheets look the same on every machine.
//!
//! Noto Sans and Noto Serif under the SIL Open Font License 1.1, see `src/assets/fonts/LICENSE.txt`.

use resvg::usvg::fontdb;
use rustybuzz::{Direction, Feature, ShapePlan, script, ttf_parser};
use std::sync::{Arc, OnceLock};

const TEXT: &[u8] = include_bytes!("../assets/fonts/NotoSans-Regular.ttf");
const STRONG: &[u8] = include_bytes!("../assets/fonts/NotoSans-Bold.ttf");
const SLANTED: &[u8] = include_bytes!("../assets/fonts/NotoSans-Italic.ttf");
const TITLE: &[u8] = include_bytes!("../assets/fonts/NotoSerif-Bold.ttf");
const SIGNS: &[u8] = include_bytes!("../assets/fonts/NotoSansMath-Regular.ttf");

/// The family that charts name.
pub(super) const FAMILY: &str = "Noto Sans";

/// Which of the bundled fonts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// Noto Sans: running text and figures.
    Text,
    /// Noto Sans Bold: headings, heads of columns.
    Strong,
    /// Noto Sans Italic: what stands under a title.
    Slanted,
    /// Noto Serif Bold: titles.
    Title,
    /// Noto Sans Math: signs that the others lack, as minus, about, at most, arrows.
    Signs,
}

impl Face {
    /// All faces, in the order in which they are kept.
    pub(super) const ALL: [Self; 5] = [
        Self::Text,
        Self::Strong,
        Self::Slanted,
        Self::Title,
        Self::Signs,
    ];

    /// The font file.
    pub(super) const fn data(self) -> &'static [u8] {
        match self {
            Self::Text => TEXT,
            Self::Strong => STRONG,
            Self::Slanted => SLANTED,
            Self::Title => TITLE,
            Self::Signs => SIGNS,
        }
    }

    /// Place in [`Face::ALL`].
    pub(super) const fn index(self) -> usize {
        match self {
            Self::Text => 0,
            Self::Strong => 1,
            Self::Slanted => 2,
            Self::Title => 3,
            Self::Signs => 4,
        }
    }
}

/// A font, read once; lengths are in em.
pub(super) struct Font {
    /// What shapes with it.
    pub(super) shaper: rustybuzz::Face<'static>,
    /// Above the baseline.
    pub(super) ascent: f64,
    /// Below the baseline, positive.
    pub(super) descent: f64,
    /// Units of the font per em.
    pub(super) units: f64,
    /// How to shape the three scripts that it covers.
    pub(super) plans: Vec<(rustybuzz::Script, ShapePlan)>,
    /// Figures of one width.
    pub(super) features: Vec<Feature>,
}

impl Font {
    fn read(data: &'static [u8]) -> Option<Self> {
        let shaper = rustybuzz::Face::from_slice(data, 0)?;
        let units = f64::from(shaper.units_per_em());
        let features = vec![Feature::new(ttf_parser::Tag::from_bytes(b"tnum"), 1, ..)];
        let plans = [script::LATIN, script::GREEK, script::CYRILLIC]
            .map(|script| {
                let plan = ShapePlan::new(
                    &shaper,
                    Direction::LeftToRight,
                    Some(script),
                    None,
                    &features,
                );
                (script, plan)
            })
            .into();
        Some(Self {
            ascent: f64::from(shaper.ascender()) / units,
            descent: -f64::from(shaper.descender()) / units,
            units,
            plans,
            features,
            shaper,
        })
    }
}

/// All fonts.
pub(super) struct Fonts {
    faces: [Font; 5],
}

impl Fonts {
    /// One of them.
    pub(super) fn font(&self, face: Face) -> &Font {
        &self.faces[face.index()]
    }
}

/// The fonts that come with the program; `None` only if the program was built with broken files.
pub(super) fn bundled() -> Option<&'static Fonts> {
    static FONTS: OnceLock<Option<Fonts>> = OnceLock::new();
    let fonts = FONTS.get_or_init(|| {
        let [text, strong, slanted, title, signs] = Face::ALL.map(|face| Font::read(face.data()));
        let faces = [text?, strong?, slanted?, title?, signs?];
        Some(Fonts { faces })
    });
    fonts.as_ref()
}

/// The same fonts for texts in charts; none of the machine's own is ever looked for.
pub(super) fn for_charts() -> Arc<fontdb::Database> {
    static DATABASE: OnceLock<Arc<fontdb::Database>> = OnceLock::new();
    let database = DATABASE.get_or_init(|| {
        let mut database = fontdb::Database::new();
        for face in [Face::Text, Face::Strong, Face::Slanted, Face::Signs] {
            let source = fontdb::Source::Binary(Arc::new(face.data()));
            database.load_font_source(source);
        }
        database.set_sans_serif_family(FAMILY);
        database.set_serif_family(FAMILY);
        Arc::new(database)
    });
    Arc::clone(database)
}
