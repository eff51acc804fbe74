//! The document as plain data: larder, specs, trials, pours, references and targets.
//!
//! Nothing here knows how a figure is computed, where a file lies or how a screen looks.

mod allergens;
mod batch_rows;
mod bench;
mod bound_limits;
mod bounds;
mod classic;
mod day;
mod document;
mod entry;
mod entry_limits;
mod field_path;
mod figure;
mod figure_group;
mod glass;
mod ids;
mod ingredient;
mod larder_limits;
mod limits;
mod lot;
mod place;
mod pour;
mod precision;
mod preparation;
mod preparation_limits;
mod process_limits;
mod rule;
mod rule_limits;
mod senses;
mod service_plan;
mod spec;
mod step;
mod step_figure;
mod tasting;
mod tasting_limits;
mod technique;
mod technique_limits;
mod trial;

pub use allergens::{
    EU_ALLERGENS, holds_allergen, may_hold_allergen, rules_out_allergens, set_allergen,
    tidy_allergens,
};
pub use batch_rows::batch_rows;
pub use bench::{BenchRun, Photo, PouredLine};
pub use bounds::{Bound, Bounded, Bounds};
pub use classic::{Classic, Family, Region};
pub use day::{is_day, minute_of_day};
pub use document::{Document, Settled};
pub use entry::{Entry, Openness, PaperSize, Reader, SheetPart, Tick};
pub use figure::Figure;
pub use figure_group::{FigureGroup, source_keys};
pub use glass::{Glass, GlassForm, GlassShape};
pub use ids::{
    ClassicId, IngredientId, LotId, PreparationId, RuleSetId, SpecId, TastingId, TrialId, free_name,
};
pub use ingredient::{
    AcidBasis, Acids, Basis, Confidence, Density, Ingredient, Origin, Price, PureAcid, Range,
    Sources, SugarSplit,
};
pub use larder_limits::{BELIEVED_DENSITY, LEAST_PH, MOST_PH, check_measurements};
pub use limits::{FieldError, MAX_INGREDIENTS, check, check_one_ingredient, check_since};
pub use lot::{Lot, Measurement, Reading, WeighedIn};
pub use place::Place;
pub use pour::{Added, Amount, Pour, Role, Source};
pub use precision::{OwnDilution, Precision, Weighing};
pub use preparation::{Garnish, Input, Preparation, Quantity};
pub use rule::{AlcoholMeasure, Counted, Practice, Required, Rule, RuleKind, RuleSet, VolumeOf};
pub use rule_limits::check_one_rule_set;
pub use senses::{Axis, Senses, Threshold};
pub use service_plan::{Bottling, Hours, Rehearsal, ServicePlan, Stage, StageStep};
pub use spec::{Balancing, Point, ScaleRule, Spec, Target, TargetPart, Weights};
pub use step::{
    AcidProfile, Clarifier, DiluteTo, DryTo, Process, ReduceTo, Release, Retained, Step, Wait,
};
pub use step_figure::{StepFigure, StepFigureKind};
pub use tasting::{
    Attribute, Choice, Criterion, Cup, Learning, MOST_SAMPLES, Sample, Taster, Tasting,
    TastingMethod, TimeRule,
};
pub use tasting_limits::{MAX_PHOTOS, MAX_TASTERS, is_plain_file};
pub use technique::{Chilling, Dilution, IceLeft, Method, Technique};
pub use technique_limits::{COLDEST_ICE_CELSIUS, MOST_BLADE_SECONDS, MOST_BLADE_WATTS};
pub use trial::{MadeBy, Trial, TrialState};
