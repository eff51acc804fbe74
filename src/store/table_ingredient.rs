//! One ingredient from the cells of its row, and back.

use super::table_cells::{Cells, guarded};
use super::table_columns::{Column, End, PlainFigure};
use super::table_words::Word as _;
use crate::model::{
    AcidBasis, Acids, Basis, Density, Figure, FigureGroup, Ingredient, Origin, Price, Range,
    Sources, SugarSplit, tidy_allergens,
};
use crate::units::exact;

/// What stands between two flavour words.
const BETWEEN_NOTES: &str = "; ";

/// Reads an ingredient; what is wrong with its cells is left with them.
pub(super) fn ingredient(cells: &mut Cells<'_>) -> Ingredient {
    let mut item = Ingredient {
        name: cells.text(Column::Name),
        kind: cells.text(Column::Kind),
        role: cells.word(Column::Role),
        basis: cells.word(Column::Basis),
        strength_pct_vol: cells.range(Figure::Strength),
        sugar_g: cells.range(Figure::Sugar),
        split: split(cells),
        acids: acids(cells),
        acid_basis: cells.word(Column::AcidBasis),
        ph: cells.range(Figure::Ph),
        fat_g: cells.number(Column::Plain(PlainFigure::Fat)),
        protein_g: cells.number(Column::Plain(PlainFigure::Protein)),
        salt_g: cells.number(Column::Plain(PlainFigure::Salt)),
        gum_g: cells.number(Column::Plain(PlainFigure::Gum)),
        starch_g: cells.number(Column::Plain(PlainFigure::Starch)),
        glycerol_g: cells.number(Column::Plain(PlainFigure::Glycerol)),
        water_g: cells.number(Column::Plain(PlainFigure::Water)),
        pure_acid: cells.word(Column::PureAcid),
        density: density(cells),
        piece_g: cells.number(Column::Plain(PlainFigure::Piece)),
        co2_g_per_l: cells.number(Column::Plain(PlainFigure::Co2)),
        bitter_per_ml: cells.number(Column::Plain(PlainFigure::Bitter)),
        allergens: tidy_allergens(&cells.text(Column::Allergens)),
        notes: notes(cells),
        price: price(cells),
        sources: sources(cells),
        place: cells.word(Column::Place),
        retired: cells.word(Column::Retired),
        confidence: cells.word(Column::Confidence),
        note: cells.text(Column::Note),
        origin: Origin::Own,
    };
    brix(cells, &mut item);
    if cells.wrong.is_empty() && says_nothing(&item) {
        let reason = "no figure says what is in it; for water give 100 g of water";
        cells.wrong.push((None, reason.to_owned()));
    }
    item
}

fn split(cells: &mut Cells<'_>) -> SugarSplit {
    SugarSplit {
        sucrose_g: cells.number(Column::Plain(PlainFigure::Sucrose)),
        glucose_g: cells.number(Column::Plain(PlainFigure::Glucose)),
        fructose_g: cells.number(Column::Plain(PlainFigure::Fructose)),
        lactose_g: cells.number(Column::Plain(PlainFigure::Lactose)),
        maltose_g: cells.number(Column::Plain(PlainFigure::Maltose)),
    }
}

fn acids(cells: &mut Cells<'_>) -> Acids {
    Acids {
        citric: cells.range(Figure::Citric),
        malic: cells.range(Figure::Malic),
        tartaric: cells.range(Figure::Tartaric),
        acetic: cells.range(Figure::Acetic),
        lactic: cells.range(Figure::Lactic),
        phosphoric: cells.range(Figure::Phosphoric),
        ascorbic: cells.range(Figure::Ascorbic),
        succinic: cells.range(Figure::Succinic),
    }
}

fn density(cells: &mut Cells<'_>) -> Option<Density> {
    let g_per_ml = cells.number(Column::Plain(PlainFigure::Density));
    let measured: bool = cells.word(Column::DensityMeasured);
    if measured && cells.is_blank(Column::Plain(PlainFigure::Density)) {
        cells.refuse(
            Column::DensityMeasured,
            "there is no density to be measured",
        );
    }
    g_per_ml.map(|g_per_ml| Density { g_per_ml, measured })
}

fn price(cells: &mut Cells<'_>) -> Option<Price> {
    let (price, size) = (
        Column::Plain(PlainFigure::PackPrice),
        Column::Plain(PlainFigure::PackSize),
    );
    for (one, other, reason) in [
        (price, size, "a price needs the size of its pack"),
        (size, price, "the size of a pack needs its price"),
    ] {
        if !cells.is_blank(one) && cells.is_blank(other) {
            cells.refuse(one, reason);
        }
    }
    let pack_is_mass = cells.word(Column::PackIsMass);
    Some(Price {
        pack_price: cells.number(price)?,
        pack_size: cells.number(size)?,
        pack_is_mass,
    })
}

/// Flavour words; the editor of the larder writes commas between them, so that none can hold one.
fn notes(cells: &Cells<'_>) -> Vec<String> {
    let text = cells.text(Column::Notes);
    let words = text.split([';', ',']).map(str::trim);
    let words = words.filter(|word| !word.is_empty());
    words.map(str::to_owned).collect()
}

fn sources(cells: &Cells<'_>) -> Sources {
    let of = |group| cells.text(Column::Source(group));
    Sources {
        strength: of(FigureGroup::Strength),
        sugar: of(FigureGroup::Sugar),
        acid: of(FigureGroup::Acid),
        ph: of(FigureGroup::Ph),
        density: of(FigureGroup::Density),
        other: of(FigureGroup::Other),
    }
}

/// Degrees Brix are grams of sugar in 100 g of sugar and water, so they settle the basis; they say
/// nothing of a liquid whose alcohol bends the light as well.
fn brix(cells: &mut Cells<'_>, item: &mut Ingredient) {
    let Some(brix) = cells.number(Column::Brix) else {
        return;
    };
    let other_grams = [
        PlainFigure::Sucrose,
        PlainFigure::Glucose,
        PlainFigure::Fructose,
        PlainFigure::Lactose,
        PlainFigure::Maltose,
        PlainFigure::Fat,
        PlainFigure::Protein,
        PlainFigure::Salt,
        PlainFigure::Gum,
        PlainFigure::Starch,
        PlainFigure::Glycerol,
        PlainFigure::Water,
    ];
    let grams = other_grams.map(Column::Plain);
    let reason = if item.sugar_g.is_some() {
        "gives the sugar a second time"
    } else if item.strength_pct_vol.is_some_and(|range| range.high > 0.0) {
        "alcohol falsifies °Bx: give the grams of sugar"
    } else if cells.is_blank(Column::Basis) && grams.iter().any(|one| !cells.is_blank(*one)) {
        "counts per 100 g: say in a column \"basis\" that the other grams do too"
    } else if !cells.is_blank(Column::Basis) && item.basis == Basis::Per100Ml {
        "counts per 100 g, but the basis is per 100 ml"
    } else {
        item.basis = Basis::Per100G;
        item.sugar_g = Some(Range::exact(brix));
        return;
    };
    cells.refuse(Column::Brix, reason);
}

/// True when no figure says what an ingredient holds; it would count as water.
fn says_nothing(item: &Ingredient) -> bool {
    let figures = [
        item.fat_g,
        item.protein_g,
        item.salt_g,
        item.gum_g,
        item.starch_g,
        item.glycerol_g,
    ];
    item.strength_pct_vol.is_none()
        && item.sugar_g.is_none()
        && item.acids == Acids::default()
        && figures.iter().all(Option::is_none)
        && item.water_g.is_none()
        && item.pure_acid.is_none()
}

/// The text of a cell as it is written.
pub(super) fn cell(item: &Ingredient, column: Column) -> String {
    match column {
        Column::Name => guarded(&item.name),
        Column::Kind => guarded(&item.kind),
        Column::Allergens => guarded(&item.allergens),
        Column::Notes => guarded(&item.notes.join(BETWEEN_NOTES)),
        Column::Note => guarded(&item.note),
        Column::Source(group) => guarded(item.sources.of(group)),
        Column::Role => item.role.write(),
        Column::Basis => item.basis.write(),
        Column::AcidBasis if item.acid_basis == AcidBasis::default() => String::new(),
        Column::AcidBasis => item.acid_basis.write(),
        Column::PureAcid => item.pure_acid.write(),
        Column::DensityMeasured => item
            .density
            .map_or_else(String::new, |density| density.measured.write()),
        Column::PackIsMass => item
            .price
            .as_ref()
            .map_or_else(String::new, |price| price.pack_is_mass.write()),
        Column::Place => item.place.write(),
        Column::Confidence => item.confidence.write(),
        Column::Retired if item.retired => item.retired.write(),
        Column::Retired | Column::Brix => String::new(),
        Column::Range(figure, end) => figure.of(item).map_or_else(String::new, |range| {
            exact(match end {
                End::Low => range.low,
                End::Typical => range.typical,
                End::High => range.high,
            })
        }),
        Column::Plain(figure) => number(item, figure).map_or_else(String::new, exact),
    }
}

fn number(item: &Ingredient, figure: PlainFigure) -> Option<f64> {
    match figure {
        PlainFigure::Sucrose => item.split.sucrose_g,
        PlainFigure::Glucose => item.split.glucose_g,
        PlainFigure::Fructose => item.split.fructose_g,
        PlainFigure::Lactose => item.split.lactose_g,
        PlainFigure::Maltose => item.split.maltose_g,
        PlainFigure::Fat => item.fat_g,
        PlainFigure::Protein => item.protein_g,
        PlainFigure::Salt => item.salt_g,
        PlainFigure::Gum => item.gum_g,
        PlainFigure::Starch => item.starch_g,
        PlainFigure::Glycerol => item.glycerol_g,
        PlainFigure::Water => item.water_g,
        PlainFigure::Density => item.density.map(|density| density.g_per_ml),
        PlainFigure::Piece => item.piece_g,
        PlainFigure::Co2 => item.co2_g_per_l,
        PlainFigure::Bitter => item.bitter_per_ml,
        PlainFigure::PackPrice => item.price.as_ref().map(|price| price.pack_price),
        PlainFigure::PackSize => item.price.as_ref().map(|price| price.pack_size),
    }
}
