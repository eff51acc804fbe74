//! Everything worked out for the preparation on screen.

use crate::chart::liquid_brix;
use crate::kitchen::{Flow, FlowError, Made, Stream, Supplies, flow, made};
use crate::model::{Document, IngredientId, Preparation, PreparationId};
use crate::physics::acids::ph;
use crate::physics::water_activity::water_activity;

/// Figures of an output, as it comes out.
#[derive(Clone, Debug, PartialEq)]
pub struct OutputFigures {
    /// Name of its stream.
    pub stream: String,
    /// The row that describes it.
    pub row: IngredientId,
    /// Display name of that row.
    pub name: String,
    /// Mass, g.
    pub grams: f64,
    /// Volume at 20 °C, ml.
    pub ml: f64,
    /// Density at 20 °C, g/ml.
    pub density_g_per_ml: f64,
    /// What a refractometer would show of its liquid, °Bx; `None` without liquid or above 85.
    pub brix: Option<f64>,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: f64,
    /// Titratable acid as citric acid, g/L.
    pub acid_g_per_l: f64,
    /// pH at 25 °C; `None` without acid.
    pub ph: Option<f64>,
    /// Water activity; `None` where it cannot be said.
    pub water_activity: Option<f64>,
    /// It is what the preparation is made for.
    pub is_main: bool,
}

/// Everything worked out for one preparation.
#[derive(Clone, Debug)]
pub struct HouseView {
    /// The preparation worked through, or why it cannot be.
    pub flow: Result<Flow, FlowError>,
    /// Rows, cost and remarks, or why there are none.
    pub made: Result<Made, FlowError>,
    /// Outputs that come out, in the order of their streams' names.
    pub outputs: Vec<OutputFigures>,
}

impl HouseView {
    /// What is wrong with the preparation, if anything.
    pub fn wrong(&self) -> Option<&FlowError> {
        self.flow.as_ref().err().or_else(|| self.made.as_ref().err())
    }
}

/// Works everything out for one preparation; `None` when the document does not hold it.
pub fn house_view(document: &Document, id: &PreparationId) -> Option<HouseView> {
    let recipe = document.preparations.get(id)?;
    let worked = Supplies::of(document, recipe).and_then(|supplies| flow(recipe, &supplies));
    let outputs = worked.as_ref().map_or_else(
        |_| Vec::new(),
        |found| outputs(document, recipe, found),
    );
    Some(HouseView {
        made: made(document, id),
        outputs,
        flow: worked,
    })
}

fn outputs(document: &Document, recipe: &Preparation, found: &Flow) -> Vec<OutputFigures> {
    let main = recipe.main_output().map(|(name, _)| name);
    let leaving = found.outputs.iter();
    leaving
        .filter_map(|name| {
            let row = recipe.outputs.get(name)?;
            let stream = found.streams.get(name)?;
            let known = document.ingredients.get(row);
            let named = known.map_or(name, |item| &item.name);
            Some(figures(name, (row, named), stream, main == Some(name)))
        })
        .collect()
}

fn figures(
    stream_name: &str,
    (row, name): (&IngredientId, &str),
    stream: &Stream,
    is_main: bool,
) -> OutputFigures {
    let whole = stream.whole();
    let ml = whole.volume_ml();
    OutputFigures {
        stream: stream_name.to_owned(),
        row: row.clone(),
        name: name.to_owned(),
        grams: whole.mass_g(),
        ml,
        density_g_per_ml: whole.density_g_per_ml(),
        brix: liquid_brix(stream),
        strength_pct_vol: whole.percent_vol(),
        acid_g_per_l: if ml > 0.0 {
            1000.0 * whole.sour_g() / ml
        } else {
            0.0
        },
        ph: ph(&whole),
        water_activity: water_activity(&whole).map(|found| found.activity),
        is_main,
    }
}
