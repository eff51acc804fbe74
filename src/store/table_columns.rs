//! The columns that a table of ingredients may have.

use crate::model::{Figure, FigureGroup};

/// An end of a range, or its working value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum End {
    /// Lowest plausible value.
    Low,
    /// Working value.
    Typical,
    /// Highest plausible value.
    High,
}

/// A figure that is one number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PlainFigure {
    /// Sucrose, g per basis.
    Sucrose,
    /// Glucose, g per basis.
    Glucose,
    /// Fructose, g per basis.
    Fructose,
    /// Lactose, g per basis.
    Lactose,
    /// Maltose, g per basis.
    Maltose,
    /// Fat, g per basis.
    Fat,
    /// Protein, g per basis.
    Protein,
    /// Salt, g per basis.
    Salt,
    /// Gums, g per basis.
    Gum,
    /// Starch and fibre, g per basis.
    Starch,
    /// Glycerol, g per basis.
    Glycerol,
    /// Water, g per basis.
    Water,
    /// Density at 20 °C, g/ml.
    Density,
    /// Weight of one piece, g.
    Piece,
    /// Carbon dioxide, g per litre.
    Co2,
    /// Bitterness per ml on the developer's own scale.
    Bitter,
    /// Price of one pack in the document's currency.
    PackPrice,
    /// Size of a pack, ml or g.
    PackSize,
}

/// What a column of a table means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Column {
    /// Display name; the only one that must be there.
    Name,
    /// Group in the larder.
    Kind,
    /// Usual job in a drink.
    Role,
    /// What gram figures count per; per 100 ml when blank.
    Basis,
    /// A figure with a range.
    Range(Figure, End),
    /// Sugar as °Bx, which is g per 100 g; only read, never written.
    Brix,
    /// A figure that is one number.
    Plain(PlainFigure),
    /// Free acid only, or bound acid too.
    AcidBasis,
    /// The acid that a powder is made of.
    PureAcid,
    /// Whether the density was measured.
    DensityMeasured,
    /// Whether the pack is sold by weight.
    PackIsMass,
    /// Where it waits.
    Place,
    /// Allergens as worded for EU 1169/2011 Annex II.
    Allergens,
    /// Flavour words, with semicolons or commas between them.
    Notes,
    /// Trust in the row.
    Confidence,
    /// Free remark.
    Note,
    /// No longer offered for new pours.
    Retired,
    /// Source of a group of figures.
    Source(FigureGroup),
}

/// Unit and field of the model of a figure with a range.
const fn unit_and_field(figure: Figure) -> (&'static str, &'static str) {
    match figure {
        Figure::Strength => ("% vol", "strength_pct_vol"),
        Figure::Sugar => ("g per basis", "sugar_g"),
        Figure::Citric => ("g/100 ml", "acids.citric"),
        Figure::Malic => ("g/100 ml", "acids.malic"),
        Figure::Tartaric => ("g/100 ml", "acids.tartaric"),
        Figure::Acetic => ("g/100 ml", "acids.acetic"),
        Figure::Lactic => ("g/100 ml", "acids.lactic"),
        Figure::Phosphoric => ("g/100 ml", "acids.phosphoric"),
        Figure::Ascorbic => ("g/100 ml", "acids.ascorbic"),
        Figure::Succinic => ("g/100 ml", "acids.succinic"),
        Figure::Ph => ("", "ph"),
    }
}

impl PlainFigure {
    /// Every figure that is one number.
    pub const ALL: [Self; 18] = [
        Self::Sucrose,
        Self::Glucose,
        Self::Fructose,
        Self::Lactose,
        Self::Maltose,
        Self::Fat,
        Self::Protein,
        Self::Salt,
        Self::Gum,
        Self::Starch,
        Self::Glycerol,
        Self::Water,
        Self::Density,
        Self::Piece,
        Self::Co2,
        Self::Bitter,
        Self::PackPrice,
        Self::PackSize,
    ];

    /// Name, unit and field of the model.
    const fn facts(self) -> (&'static str, &'static str, &'static str) {
        match self {
            Self::Sucrose => ("sucrose", "g per basis", "split.sucrose_g"),
            Self::Glucose => ("glucose", "g per basis", "split.glucose_g"),
            Self::Fructose => ("fructose", "g per basis", "split.fructose_g"),
            Self::Lactose => ("lactose", "g per basis", "split.lactose_g"),
            Self::Maltose => ("maltose", "g per basis", "split.maltose_g"),
            Self::Fat => ("fat", "g per basis", "fat_g"),
            Self::Protein => ("protein", "g per basis", "protein_g"),
            Self::Salt => ("salt", "g per basis", "salt_g"),
            Self::Gum => ("gum", "g per basis", "gum_g"),
            Self::Starch => ("starch and fibre", "g per basis", "starch_g"),
            Self::Glycerol => ("glycerol", "g per basis", "glycerol_g"),
            Self::Water => ("water", "g per basis", "water_g"),
            Self::Density => ("density", "g/ml", "density.g_per_ml"),
            Self::Piece => ("weight of a piece", "g", "piece_g"),
            Self::Co2 => ("carbon dioxide", "g/L", "co2_g_per_l"),
            Self::Bitter => ("bitterness", "per ml", "bitter_per_ml"),
            Self::PackPrice => ("pack price", "", "price.pack_price"),
            Self::PackSize => ("pack size", "ml or g", "price.pack_size"),
        }
    }
}

impl Column {
    /// The columns that are written, from the left.
    pub fn written() -> Vec<Self> {
        let mut all = vec![Self::Name, Self::Kind, Self::Role, Self::Basis];
        for figure in Figure::ALL {
            all.extend([End::Low, End::Typical, End::High].map(|end| Self::Range(figure, end)));
        }
        all.extend(PlainFigure::ALL.map(Self::Plain));
        all.extend([
            Self::AcidBasis,
            Self::PureAcid,
            Self::DensityMeasured,
            Self::PackIsMass,
            Self::Place,
            Self::Allergens,
            Self::Notes,
            Self::Confidence,
            Self::Note,
            Self::Retired,
        ]);
        all.extend(FigureGroup::ALL.map(Self::Source));
        all
    }

    /// Every column that can be read.
    pub fn all() -> Vec<Self> {
        let mut all = Self::written();
        all.push(Self::Brix);
        all
    }

    /// Its name in a header, with the unit in brackets.
    pub fn header(self) -> String {
        let with_unit = |name: &str, unit: &str| match unit {
            "" => name.to_owned(),
            unit => format!("{name} ({unit})"),
        };
        match self {
            Self::Range(figure, end) => {
                let (name, (unit, _)) = (figure.name(), unit_and_field(figure));
                let end = match end {
                    End::Low => "low",
                    End::Typical => "typical",
                    End::High => "high",
                };
                with_unit(&format!("{name} {end}"), unit)
            }
            Self::Plain(figure) => with_unit(figure.facts().0, figure.facts().1),
            Self::Source(group) => format!("source of {}", group.name()),
            Self::Brix => "sugar (°Bx)".to_owned(),
            Self::Name => "name".to_owned(),
            Self::Kind => "kind".to_owned(),
            Self::Role => "role".to_owned(),
            Self::Basis => "basis".to_owned(),
            Self::AcidBasis => "acid basis".to_owned(),
            Self::PureAcid => "pure acid".to_owned(),
            Self::DensityMeasured => "density measured".to_owned(),
            Self::PackIsMass => "pack by weight".to_owned(),
            Self::Place => "place".to_owned(),
            Self::Allergens => "allergens".to_owned(),
            Self::Notes => "flavour words".to_owned(),
            Self::Confidence => "confidence".to_owned(),
            Self::Note => "remark".to_owned(),
            Self::Retired => "retired".to_owned(),
        }
    }

    /// The start of the path that the model calls it by.
    fn field(self) -> &'static str {
        match self {
            Self::Range(figure, _) => unit_and_field(figure).1,
            Self::Plain(figure) => figure.facts().2,
            Self::Source(group) => group.field(),
            Self::Name => "name",
            Self::Kind => "kind",
            Self::Note => "note",
            Self::Notes => "notes",
            Self::Allergens => "allergens",
            _ => "",
        }
    }

    /// The column, among those of a table, that a field of the model was read from.
    pub(super) fn of_field(field: &str, among: impl Iterator<Item = Self>) -> Option<Self> {
        let last = field.rsplit('.').next();
        let end = |column: &Self| match column {
            Self::Range(_, End::Low) => last == Some("low"),
            Self::Range(_, End::High) => last == Some("high"),
            _ => last != Some("low") && last != Some("high"),
        };
        // A longer name says more: "notes" before "note".
        among
            .filter(|column| !column.field().is_empty() && field.starts_with(column.field()))
            .max_by_key(|column| (column.field().len(), end(column)))
    }
}
