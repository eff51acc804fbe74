//! Everything worked out for the service of the trial on screen.

use super::open_document::{Selection, Session};
use super::today::this_minute;
use crate::model::{Document, RuleKind, ServicePlan, Spec, Trial};
use crate::service::{
    AlcoholFacts, Batch, BottleLabel, DrinkCost, Energy, PlanError, Practical, PrepPlan, Rounding,
    RunSheet, ServiceError, Shopping, alcohol, batch, by_jiggers, by_practical, calendar,
    drink_cost, energy, labels, prep_plan, run_sheet, shopping,
};
use jiff::civil::DateTime;
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

/// Stands in for a service whose day is not known yet: times are then told from it.
const SOME_DAY: &str = "2000-06-15";
/// The time of a service whose time is blank, shown where it would be typed.
pub const SERVICE_AT: &str = "18:00";

/// The service of one trial; what a tab shows is worked out when it is asked for.
#[derive(Debug)]
pub struct ServiceView {
    document: Arc<Document>,
    selection: Selection,
    now: DateTime,
    batch: OnceCell<Option<Result<Batch, ServiceError>>>,
    shopping: OnceCell<Option<Shopping>>,
    plan: OnceCell<Option<(Result<PrepPlan, PlanError>, bool)>>,
    jiggers: OnceCell<Option<Rounding>>,
    practical: OnceCell<Option<Rounding>>,
    energy: OnceCell<Option<Energy>>,
    alcohol: OnceCell<Option<AlcoholFacts>>,
    cost: OnceCell<Option<DrinkCost>>,
    run_sheet: OnceCell<Option<RunSheet>>,
    labels: OnceCell<Option<Result<Vec<BottleLabel>, ServiceError>>>,
}

/// What was worked out last, and of which revision and selection.
pub(super) type KeptService = RefCell<Option<(u64, Selection, Rc<ServiceView>)>>;

impl Session {
    /// The service of the trial on screen; kept until the document or the selection changes.
    pub fn service(&self) -> Rc<ServiceView> {
        let mut kept = self.kept_service.borrow_mut();
        let (revision, selection) = (self.revision(), self.selection());
        if let Some((of, shown, view)) = kept.as_ref()
            && (*of, *shown) == (revision, selection)
        {
            return Rc::clone(view);
        }
        let view = Rc::new(ServiceView::new(Arc::clone(self.document()), selection));
        *kept = Some((revision, selection, Rc::clone(&view)));
        view
    }
}

impl ServiceView {
    fn new(document: Arc<Document>, selection: Selection) -> Self {
        Self {
            document,
            selection,
            now: this_minute(),
            batch: OnceCell::new(),
            shopping: OnceCell::new(),
            plan: OnceCell::new(),
            jiggers: OnceCell::new(),
            practical: OnceCell::new(),
            energy: OnceCell::new(),
            alcohol: OnceCell::new(),
            cost: OnceCell::new(),
            run_sheet: OnceCell::new(),
            labels: OnceCell::new(),
        }
    }

    fn shown(&self) -> Option<(&Spec, &Trial)> {
        let (spec, trial) = self.document.trial(self.selection.trial?)?;
        Some((spec, trial))
    }

    /// The plan as it is in the document.
    pub fn asked(&self) -> Option<&ServicePlan> {
        Some(&self.shown()?.0.service)
    }

    /// Whether the day of the service is known; otherwise times are told from it.
    pub fn has_day(&self) -> bool {
        self.asked().is_some_and(|plan| !plan.on.is_empty())
    }

    /// Whether the time of the service is known; otherwise [`SERVICE_AT`] stands in for it.
    pub fn has_time(&self) -> bool {
        self.asked().is_some_and(|plan| !plan.at.is_empty())
    }

    /// The drinks of the service, or why they cannot be worked out; `None` without a drink.
    pub fn batch(&self) -> Option<&Result<Batch, ServiceError>> {
        let find = || {
            let (spec, trial) = self.shown()?;
            Some(batch(&self.document, spec, trial, &spec.service))
        };
        self.batch.get_or_init(find).as_ref()
    }

    /// The batch, where it can be worked out.
    pub fn made(&self) -> Option<&Batch> {
        self.batch()?.as_ref().ok()
    }

    /// What has to be bought.
    pub fn shopping(&self) -> Option<&Shopping> {
        let find = || {
            let plan = self.asked()?;
            Some(shopping(&self.document, self.made()?, plan))
        };
        self.shopping.get_or_init(find).as_ref()
    }

    /// What is prepared when, or which two things clash; `None` without a batch.
    pub fn plan(&self) -> Option<&Result<PrepPlan, PlanError>> {
        self.planned().map(|(plan, _)| plan)
    }

    /// The plan, with the longest waits if they leave time, else with the shortest.
    ///
    /// Without a day or a time some stand in for them: tell such times from the service.
    fn planned(&self) -> Option<&(Result<PrepPlan, PlanError>, bool)> {
        let find = || {
            let mut plan = self.asked()?.clone();
            let has_day = self.has_day();
            if !has_day {
                SOME_DAY.clone_into(&mut plan.on);
            }
            if plan.at.is_empty() {
                SERVICE_AT.clone_into(&mut plan.at);
            }
            let now = has_day.then_some(self.now);
            let made = self.made()?;
            let usual = prep_plan(&self.document, made, &plan, now);
            if usual.is_ok() {
                return Some((usual, false));
            }
            // The longest waits leave no time: the shortest ones may.
            let hurried = prep_plan(&with_shortest_waits(&self.document), made, &plan, now);
            Some(if hurried.is_ok() {
                (hurried, true)
            } else {
                (usual, false)
            })
        };
        self.plan.get_or_init(find).as_ref()
    }

    /// The plan could be kept with the shortest waits only.
    pub fn is_hurried(&self) -> bool {
        self.planned().is_some_and(|(_, hurried)| *hurried)
    }

    /// One drink as the jiggers at hand measure it.
    pub fn jiggers(&self) -> Option<&Rounding> {
        let find = || by_jiggers(&self.document, self.shown()?.1).ok();
        self.jiggers.get_or_init(find).as_ref()
    }

    /// The batch in practical measures.
    pub fn practical(&self) -> Option<&Rounding> {
        let find = || {
            let trial = self.shown()?.1;
            by_practical(&self.document, trial, self.made()?, Practical::default()).ok()
        };
        self.practical.get_or_init(find).as_ref()
    }

    /// Energy of one drink.
    pub fn energy(&self) -> Option<&Energy> {
        let find = || energy(&self.document, self.shown()?.1).ok();
        self.energy.get_or_init(find).as_ref()
    }

    /// Alcohol, allergens and what has to be said.
    pub fn alcohol(&self) -> Option<&AlcoholFacts> {
        let find = || {
            let (spec, trial) = self.shown()?;
            alcohol(&self.document, spec, trial, &spec.service.country).ok()
        };
        self.alcohol.get_or_init(find).as_ref()
    }

    /// What one drink costs.
    pub fn cost(&self) -> Option<&DrinkCost> {
        let find = || {
            let entry = &self.shown()?.0.entry;
            Some(drink_cost(&self.document, self.made()?, entry))
        };
        self.cost.get_or_init(find).as_ref()
    }

    /// The drink on a stage, with the drinks and minutes that its rules ask for.
    pub fn run_sheet(&self) -> Option<&RunSheet> {
        let find = || {
            let (spec, trial) = self.shown()?;
            let rules = spec.entry.rules.as_ref();
            let set = rules.and_then(|id| self.document.rule_sets.get(id));
            let asked = set.into_iter().flat_map(|set| &set.rules);
            let asked: Vec<&RuleKind> = asked
                .filter(|rule| !rule.off)
                .map(|rule| &rule.asks)
                .collect();
            let serves = asked.iter().find_map(|asks| match asks {
                RuleKind::Serves { count } => Some(*count),
                _ => None,
            });
            let minutes = asked.iter().find_map(|asks| match asks {
                RuleKind::StageTime { minutes, .. } => Some(*minutes),
                _ => None,
            });
            Some(run_sheet(&self.document, spec, trial, serves, minutes))
        };
        self.run_sheet.get_or_init(find).as_ref()
    }

    /// Labels of everything that is made, or why there are none; `None` without a batch.
    ///
    /// What the plan does not date was made today.
    pub fn labels(&self) -> Option<&Result<Vec<BottleLabel>, ServiceError>> {
        let find = || {
            let (spec, _) = self.shown()?;
            let dated = self.plan().filter(|_| self.has_day());
            let plan = (&*spec.service, dated.and_then(|plan| plan.as_ref().ok()));
            let today = self.now.date().to_string();
            Some(labels(&self.document, spec, self.made()?, plan, &today))
        };
        self.labels.get_or_init(find).as_ref()
    }

    /// The plan as a calendar (RFC 5545), or why there is none.
    pub fn calendar(&self) -> Result<String, String> {
        if !self.has_day() {
            return Err("set the day of the service first".to_owned());
        }
        let (spec, trial) = self.shown().ok_or("there is no drink")?;
        match self.plan() {
            None => Err("the batch cannot be worked out".to_owned()),
            Some(Err(error)) => Err(error.to_string()),
            Some(Ok(plan)) => Ok(calendar(&self.document, spec, trial, plan)),
        }
    }

    /// A point of time of the plan in words: "Sat 2026-12-05, 10:00", or told from the service while its
    /// day is not known: "3 days before, 10:00".
    pub fn when(&self, at: DateTime, service: DateTime) -> String {
        let time = format!("{:02}:{:02}", at.hour(), at.minute());
        if self.has_day() {
            let day = at.date();
            return format!("{} {}, {time}", weekday(day), day);
        }
        let days = service
            .date()
            .since(at.date())
            .map_or(0, |span| span.get_days());
        match days {
            0 => format!("on the day, {time}"),
            1 => format!("the day before, {time}"),
            days => format!("{days} days before, {time}"),
        }
    }
}

/// The document with every wait at its shortest.
fn with_shortest_waits(document: &Document) -> Document {
    let mut hurried = document.clone();
    for made in Arc::make_mut(&mut hurried.preparations).values_mut() {
        for step in &mut Arc::make_mut(made).steps {
            step.wait.most_min = step.wait.least_min;
        }
    }
    hurried
}

/// "Sat".
fn weekday(day: jiff::civil::Date) -> &'static str {
    use jiff::civil::Weekday;
    match day.weekday() {
        Weekday::Monday => "Mon",
        Weekday::Tuesday => "Tue",
        Weekday::Wednesday => "Wed",
        Weekday::Thursday => "Thu",
        Weekday::Friday => "Fri",
        Weekday::Saturday => "Sat",
        Weekday::Sunday => "Sun",
    }
}
