//! The substances a composition is counted in, and the constants of each.

/// One substance, or one class of substances, of a drink.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[repr(usize)]
pub enum Component {
    /// Water.
    Water,
    /// Ethanol.
    Ethanol,
    /// Sucrose, table sugar.
    Sucrose,
    /// Glucose (dextrose), anhydrous.
    Glucose,
    /// Fructose.
    Fructose,
    /// Lactose, anhydrous.
    Lactose,
    /// Maltose, anhydrous.
    Maltose,
    /// Glycerol.
    Glycerol,
    /// Citric acid, anhydrous.
    Citric,
    /// Malic acid.
    Malic,
    /// Tartaric acid.
    Tartaric,
    /// Acetic acid.
    Acetic,
    /// Lactic acid.
    Lactic,
    /// Phosphoric acid.
    Phosphoric,
    /// Ascorbic acid.
    Ascorbic,
    /// Succinic acid.
    Succinic,
    /// Sodium chloride.
    Salt,
    /// Protein.
    Protein,
    /// Fat.
    Fat,
    /// Starch and fibre.
    Starch,
    /// Gums: xanthan, agar, gelatin, arabic and the like.
    Gum,
    /// Other dissolved solids.
    Other,
}

/// Grams of citric acid (anhydrous) that one mole of titratable protons stands for, g/mol.
///
/// 192.124 / 3, the equivalent mass.
pub const CITRIC_EQUIVALENT_G: f64 = 64.04;

impl Component {
    /// How many components there are.
    pub const COUNT: usize = 22;

    /// Every component, in the order of its number.
    pub const ALL: [Self; Self::COUNT] = [
        Self::Water,
        Self::Ethanol,
        Self::Sucrose,
        Self::Glucose,
        Self::Fructose,
        Self::Lactose,
        Self::Maltose,
        Self::Glycerol,
        Self::Citric,
        Self::Malic,
        Self::Tartaric,
        Self::Acetic,
        Self::Lactic,
        Self::Phosphoric,
        Self::Ascorbic,
        Self::Succinic,
        Self::Salt,
        Self::Protein,
        Self::Fat,
        Self::Starch,
        Self::Gum,
        Self::Other,
    ];

    /// The sugars that raw sugar adds up. Glycerol is sweet but no sugar.
    pub const SUGARS: [Self; 5] = [
        Self::Sucrose,
        Self::Glucose,
        Self::Fructose,
        Self::Lactose,
        Self::Maltose,
    ];

    /// The acids.
    pub const ACIDS: [Self; 8] = [
        Self::Citric,
        Self::Malic,
        Self::Tartaric,
        Self::Acetic,
        Self::Lactic,
        Self::Phosphoric,
        Self::Ascorbic,
        Self::Succinic,
    ];

    /// The substances that give body without sweetness or sourness.
    pub const BODY: [Self; 5] = [
        Self::Fat,
        Self::Protein,
        Self::Starch,
        Self::Gum,
        Self::Other,
    ];

    /// The component's name as one lower-case word.
    pub fn name(self) -> &'static str {
        match self {
            Self::Water => "water",
            Self::Ethanol => "ethanol",
            Self::Sucrose => "sucrose",
            Self::Glucose => "glucose",
            Self::Fructose => "fructose",
            Self::Lactose => "lactose",
            Self::Maltose => "maltose",
            Self::Glycerol => "glycerol",
            Self::Citric => "citric",
            Self::Malic => "malic",
            Self::Tartaric => "tartaric",
            Self::Acetic => "acetic",
            Self::Lactic => "lactic",
            Self::Phosphoric => "phosphoric",
            Self::Ascorbic => "ascorbic",
            Self::Succinic => "succinic",
            Self::Salt => "salt",
            Self::Protein => "protein",
            Self::Fat => "fat",
            Self::Starch => "starch",
            Self::Gum => "gum",
            Self::Other => "other",
        }
    }

    /// Apparent specific volume in water at 20 °C, ml/g, taken as constant.
    ///
    /// `None` for water, ethanol and sucrose, whose volumes follow the published formulas.
    pub fn specific_volume_ml_per_g(self) -> Option<f64> {
        let volume = match self {
            Self::Water | Self::Ethanol | Self::Sucrose => return None,
            // From the 10 mass % rows of the CRC Handbook's concentrative properties of aqueous
            // solutions (20 °C); good to about 0.005 up to 20 mass %.
            Self::Glucose => 0.622,
            Self::Fructose | Self::Maltose => 0.613,
            Self::Lactose => 0.608,
            Self::Glycerol => 0.773,
            Self::Citric => 0.597,
            Self::Acetic => 0.864,
            Self::Lactic => 0.789,
            Self::Phosphoric => 0.480,
            Self::Salt => 0.308,
            // Estimates, no source: about 0.03 for the acids, 0.02 for the rest.
            Self::Malic | Self::Other => 0.60,
            Self::Tartaric => 0.55,
            Self::Ascorbic => 0.56,
            Self::Succinic => 0.64,
            Self::Protein => 0.73,
            Self::Fat => 1.087,
            Self::Starch | Self::Gum => 0.62,
        };
        Some(volume)
    }

    /// Molar mass, g/mol, from standard atomic weights (error below 0.002).
    ///
    /// `None` for what is no single substance: protein, fat, starch, gum and other solids.
    pub fn molar_mass_g_per_mol(self) -> Option<f64> {
        let mass = match self {
            Self::Water => 18.015_28,
            Self::Ethanol => 46.068,
            Self::Sucrose | Self::Lactose | Self::Maltose => 342.296,
            Self::Glucose | Self::Fructose => 180.156,
            Self::Glycerol => 92.094,
            Self::Citric => 192.124,
            Self::Malic => 134.088,
            Self::Tartaric => 150.087,
            Self::Acetic => 60.052,
            Self::Lactic => 90.078,
            Self::Phosphoric => 97.995,
            Self::Ascorbic => 176.124,
            Self::Succinic => 118.088,
            Self::Salt => 58.44,
            Self::Protein | Self::Fat | Self::Starch | Self::Gum | Self::Other => return None,
        };
        Some(mass)
    }

    /// Sweetness of a gram relative to a gram of sucrose; 0 for what is not sweet.
    ///
    /// Typical values, and the spread between sources: fructose 1.5 (1.14–1.73), glucose 0.74
    /// (0.64–0.80), lactose 0.2 (0.16–0.39), maltose 0.45 (0.33–0.50), glycerol 0.7 (0.60–0.75).
    /// Sources: Public Health Nutr. 26:952 (2022) table 2 (PMC10346066) and an encyclopedia entry
    /// on sweeteners; the fructose figure is the middle of what they give.
    pub fn relative_sweetness(self) -> f64 {
        match self {
            Self::Sucrose => 1.0,
            Self::Fructose => 1.5,
            Self::Glucose => 0.74,
            Self::Lactose => 0.2,
            Self::Maltose => 0.45,
            Self::Glycerol => 0.7,
            _ => 0.0,
        }
    }

    /// Protons a molecule gives up in a titration to pH 8.2; 0 for what is no acid.
    ///
    /// Nominal whole numbers: the mean charge at pH 8.2 from the pKa agrees within 0.02, except
    /// for phosphoric acid, 1.91.
    pub fn protons(self) -> f64 {
        match self {
            Self::Citric => 3.0,
            Self::Malic | Self::Tartaric | Self::Succinic | Self::Phosphoric => 2.0,
            Self::Acetic | Self::Lactic | Self::Ascorbic => 1.0,
            _ => 0.0,
        }
    }

    /// The acid's dissociation constants at 25 °C and zero ionic strength, as pKa; empty for
    /// what is no acid. Error 0.02 to 0.1.
    pub fn pka(self) -> &'static [f64] {
        match self {
            // First from the fit of Bates and Pinching; third digits of the others from memory.
            Self::Citric => &[3.128, 4.761, 6.396],
            // CRC Handbook values from memory; a public table reads 3.4 and 5.2.
            Self::Malic => &[3.40, 5.11],
            // Public table of organic acids at 25 °C (aqion.de).
            Self::Tartaric => &[2.98, 4.34],
            // The same table, third decimal from memory.
            Self::Acetic => &[4.756],
            // The same table.
            Self::Lactic => &[3.86],
            // From memory; Fromm's table of ionization constants reads 2.148, 7.206, 12.342.
            Self::Phosphoric => &[2.148, 7.198, 12.35],
            // Ka 8.0e-5 and 1.6e-12 in a public table; 4.04 and 4.17 circulate for the first.
            Self::Ascorbic => &[4.10, 11.80],
            // The table of organic acids and Fromm's table agree.
            Self::Succinic => &[4.21, 5.64],
            _ => &[],
        }
    }
}
