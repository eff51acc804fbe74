//! The figures of a preparation's steps that are known only within a range.

use super::ingredient::Range;
use super::preparation::Preparation;
use super::step::{DryTo, Process, Retained, Step};

/// What an uncertain figure of a step says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum StepFigureKind {
    /// Liquid that solids take up, g per g.
    Uptake,
    /// Liquid that stays with the solids, g per g.
    Retained,
    /// Liquid that comes out, as a share of the mass.
    Yield,
    /// Juice, as a share of the mass.
    Juice,
    /// Steam, as a share of the mass.
    Steam,
    /// Water that drying leaves, as a share of what is left.
    Moisture,
    /// Liquid that stays with what clarifying took out, as a share.
    HeldBack,
    /// Spirit that stays in the fat, g per g of fat.
    HeldByFat,
    /// Gas that is still there in the glass, as a share.
    GasKept,
    /// Gas in a foam, ml per ml.
    Overrun,
}

impl StepFigureKind {
    /// The field's word, as on the form and in errors.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Uptake => "liquid taken up",
            Self::Retained => "liquid that stays behind",
            Self::Yield => "liquid that comes out",
            Self::Juice => "juice",
            Self::Steam => "steam",
            Self::Moisture => "moisture",
            Self::HeldBack => "liquid held back",
            Self::HeldByFat => "spirit held by the fat",
            Self::GasKept => "gas kept",
            Self::Overrun => "overrun",
        }
    }

    /// Unit of the figure; "share" runs from 0 to 1.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Uptake | Self::Retained | Self::HeldByFat => "g per g",
            Self::Overrun => "ml per ml",
            Self::Yield
            | Self::Juice
            | Self::Steam
            | Self::Moisture
            | Self::HeldBack
            | Self::GasKept => "share",
        }
    }

    /// The largest value that can be meant; 1 for a share.
    pub fn most(self) -> f64 {
        if self.unit() == "share" {
            1.0
        } else {
            f64::INFINITY
        }
    }
}

/// One uncertain figure of a preparation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct StepFigure {
    /// Place of the step, from 0.
    pub step: usize,
    /// Which of its figures.
    pub kind: StepFigureKind,
}

impl StepFigure {
    /// The figure's range; `None` when the preparation has no such figure.
    pub fn of(self, preparation: &Preparation) -> Option<Range> {
        let step = preparation.steps.get(self.step)?;
        let (kind, range) = step.uncertain()?;
        (kind == self.kind).then_some(range)
    }

    /// The figure's range to be changed; `None` when the preparation has no such figure.
    pub fn of_mut(self, preparation: &mut Preparation) -> Option<&mut Range> {
        let step = preparation.steps.get_mut(self.step)?;
        let (kind, range) = step.uncertain_mut()?;
        (kind == self.kind).then_some(range)
    }
}

impl Step {
    /// The figure of this step that is known only within a range, if it has one.
    pub fn uncertain(&self) -> Option<(StepFigureKind, Range)> {
        // One list of fields serves both: a step is small.
        let mut copy = self.does.clone();
        uncertain(&mut copy).map(|(kind, range)| (kind, *range))
    }

    /// The same, to be changed.
    pub fn uncertain_mut(&mut self) -> Option<(StepFigureKind, &mut Range)> {
        uncertain(&mut self.does)
    }
}

fn uncertain(process: &mut Process) -> Option<(StepFigureKind, &mut Range)> {
    let found = match process {
        Process::Soak { uptake, .. } => (StepFigureKind::Uptake, uptake),
        Process::Strain { retained }
        | Process::Press { retained }
        | Process::SugarOnPeel { retained, .. } => match retained {
            Retained::PerGram(range) => (StepFigureKind::Retained, range),
            Retained::Yield(range) => (StepFigureKind::Yield, range),
        },
        Process::Juice { yielded, .. } => (StepFigureKind::Juice, yielded),
        Process::Heat { steam } => (StepFigureKind::Steam, steam),
        Process::Dehydrate {
            to: DryTo::Moisture(range),
        } => (StepFigureKind::Moisture, range),
        Process::Clarify { held_back, .. } => (StepFigureKind::HeldBack, held_back),
        Process::FatWash { held, .. } => (StepFigureKind::HeldByFat, held),
        Process::Carbonate { kept, .. } => (StepFigureKind::GasKept, kept),
        Process::Aerate { overrun } => (StepFigureKind::Overrun, overrun),
        _ => return None,
    };
    Some(found)
}

impl Preparation {
    /// Every figure of its steps that has a range, in their order; also those known exactly.
    pub fn step_figures(&self) -> Vec<StepFigure> {
        let steps = self.steps.iter().enumerate();
        steps
            .filter_map(|(step, one)| {
                let (kind, _) = one.uncertain()?;
                Some(StepFigure { step, kind })
            })
            .collect()
    }

    /// The figures of its steps whose ranges are wider than a point, in their order.
    pub fn uncertain(&self) -> Vec<StepFigure> {
        let mut figures = self.step_figures();
        figures.retain(|figure| figure.of(self).is_some_and(|range| range.low < range.high));
        figures
    }

    /// A copy in which one figure has another typical value.
    ///
    /// The ends of its range move only where the value lies beyond them. Without such a figure the
    /// copy is the same.
    #[must_use]
    pub fn with(&self, figure: StepFigure, value: f64) -> Self {
        let mut changed = self.clone();
        if let Some(range) = figure.of_mut(&mut changed) {
            range.typical = value;
            range.low = range.low.min(value);
            range.high = range.high.max(value);
        }
        changed
    }
}
