//! Everything worked out for the preparation on screen.

use crate::kitchen::{
    Caution, Flow, FlowError, Keeping, Made, SecondUse, Spans, Stream, Timing, YieldSaid,
    believed_ph, card, cautions, keeping, label, made, readable_brix, second_uses, spans, timing,
    worked, yield_said,
};
use crate::model::{Document, Ingredient, IngredientId, Preparation, PreparationId};
use crate::physics::water_activity::water_activity;
use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;
use std::sync::Arc;

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
    /// Dissolved solids of its liquid, °Bx; `None` for what is all but dry.
    pub brix: Option<f64>,
    /// Strength, % vol at 20 °C.
    pub strength_pct_vol: f64,
    /// Titratable acid as citric acid, g/L.
    pub acid_g_per_l: f64,
    /// pH at 25 °C; `None` without acid and for what is no pH of a drink.
    pub ph: Option<f64>,
    /// Water activity; `None` where it cannot be said.
    pub water_activity: Option<f64>,
    /// Between which figures it is believed to lie.
    pub spans: Spans,
    /// It is what the preparation is made for.
    pub is_main: bool,
}

/// Everything worked out for one preparation; what a tab shows is worked out when it is asked for.
#[derive(Debug)]
pub struct HouseView {
    document: Arc<Document>,
    id: PreparationId,
    /// The preparation worked through, or why it cannot be.
    pub flow: Result<Flow, FlowError>,
    /// Rows, cost and remarks, or why there are none.
    pub made: Result<Made, FlowError>,
    /// Outputs that come out, in the order of their streams' names; none without steps, for their
    /// rows then say what they are and nothing says how much comes out.
    pub outputs: Vec<OutputFigures>,
    timing: OnceCell<Option<Timing>>,
    safety: OnceCell<Safety>,
    paper: RefCell<Option<(String, Arc<HousePaper>)>>,
    yields: OnceCell<BTreeMap<String, YieldSaid>>,
    second_uses: OnceCell<Vec<SecondUse>>,
}

/// How outputs keep, and what to mind.
#[derive(Clone, Debug, Default)]
pub struct Safety {
    /// By the name of the stream.
    pub keeping: BTreeMap<String, Keeping>,
    /// What to mind, with sources.
    pub cautions: Vec<Caution>,
}

/// What is printed.
#[derive(Clone, Debug, Default)]
pub struct HousePaper {
    /// The preparation's card.
    pub card: String,
    /// Labels of bottles, by the name of the stream.
    pub labels: Vec<(String, String)>,
}

impl HouseView {
    /// What is wrong with the preparation, if anything.
    pub fn wrong(&self) -> Option<&FlowError> {
        self.flow
            .as_ref()
            .err()
            .or_else(|| self.made.as_ref().err())
    }

    /// How long it takes.
    pub fn timing(&self) -> Option<&Timing> {
        let find = || timing(&self.document, &self.id).ok();
        self.timing.get_or_init(find).as_ref()
    }

    /// How outputs keep, and what to mind; empty where nothing can be worked out.
    pub fn safety(&self) -> &Safety {
        self.safety.get_or_init(|| Safety {
            keeping: keeping(&self.document, &self.id).unwrap_or_default(),
            cautions: cautions(&self.document, &self.id).unwrap_or_default(),
        })
    }

    /// Card and labels, made on that day, ISO 8601; empty where nothing can be worked out.
    ///
    /// Kept for the day asked for last, so that a window left open overnight prints the new day.
    pub fn paper(&self, made_on: &str) -> Arc<HousePaper> {
        let mut kept = self.paper.borrow_mut();
        if let Some((day, paper)) = kept.as_ref()
            && day == made_on
        {
            return Arc::clone(paper);
        }
        let paper = Arc::new(self.printed(made_on));
        *kept = Some((made_on.to_owned(), Arc::clone(&paper)));
        paper
    }

    fn printed(&self, made_on: &str) -> HousePaper {
        let text = |output: &String| {
            let text = label(&self.document, &self.id, output, made_on).ok()?;
            Some((output.clone(), text))
        };
        let recipe = self.document.preparations.get(&self.id);
        let outputs = recipe.into_iter().flat_map(|recipe| recipe.outputs.keys());
        HousePaper {
            card: card(&self.document, &self.id).unwrap_or_default(),
            labels: outputs.filter_map(text).collect(),
        }
    }

    /// What lots say of the yield, by the name of the stream.
    pub fn yields(&self) -> &BTreeMap<String, YieldSaid> {
        self.yields.get_or_init(|| {
            let said = |output: &OutputFigures| {
                let said = yield_said(&self.document, &self.id, &output.stream).ok()?;
                Some((output.stream.clone(), said))
            };
            self.outputs.iter().filter_map(said).collect()
        })
    }

    /// What could be made of what is left over.
    pub fn second_uses(&self) -> &[SecondUse] {
        let find = || second_uses(&self.document, &self.id).unwrap_or_default();
        self.second_uses.get_or_init(find)
    }
}

/// Works everything out for one preparation; `None` when the document does not hold it.
pub fn house_view(document: &Arc<Document>, id: &PreparationId) -> Option<HouseView> {
    let recipe = document.preparations.get(id)?;
    let worked = worked_or_inputs(document, recipe);
    let made = made(document, id);
    let rows = made.as_ref().map(|made| &made.rows).ok();
    let outputs = worked.as_ref().map_or_else(
        |_| Vec::new(),
        |found| outputs(document, recipe, found, rows),
    );
    Some(HouseView {
        document: Arc::clone(document),
        id: id.clone(),
        made,
        outputs,
        flow: worked,
        timing: OnceCell::new(),
        safety: OnceCell::new(),
        paper: RefCell::default(),
        yields: OnceCell::new(),
        second_uses: OnceCell::new(),
    })
}

/// The preparation worked through.
///
/// Without steps there is nothing to work through but what goes in: what comes out is described by
/// rows that a person wrote.
fn worked_or_inputs(document: &Document, recipe: &Preparation) -> Result<Flow, FlowError> {
    if recipe.is_worked_out() || recipe.outputs.is_empty() {
        return worked(document, recipe);
    }
    let inputs_alone = Preparation {
        outputs: BTreeMap::new(),
        ..recipe.clone()
    };
    Ok(worked(document, &inputs_alone).unwrap_or_default())
}

fn outputs(
    document: &Document,
    recipe: &Preparation,
    found: &Flow,
    rows: Option<&BTreeMap<String, Ingredient>>,
) -> Vec<OutputFigures> {
    let main = recipe.main_output().map(|(name, _)| name);
    let leaving = found.outputs.iter();
    leaving
        .filter_map(|name| {
            let row = recipe.outputs.get(name)?;
            let stream = found.streams.get(name)?;
            let known = document.ingredients.get(row);
            let named = known.map_or(name, |item| &item.name);
            let mut figures = figures(name, (row, named), stream, main == Some(name));
            if let Some(made) = rows.and_then(|rows| rows.get(name)) {
                figures.spans = spans(made, stream, (figures.brix, figures.acid_g_per_l));
            }
            Some(figures)
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
        brix: readable_brix(&stream.liquid),
        strength_pct_vol: whole.percent_vol(),
        acid_g_per_l: whole.sour_g_per_l(),
        ph: believed_ph(&whole),
        water_activity: water_activity(&whole).map(|found| found.activity),
        spans: Spans::default(),
        is_main,
    }
}
