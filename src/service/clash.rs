//! Why a plan cannot be kept: the two things that clash, and by how long.

use jiff::civil::DateTime;

/// Minutes of an hour and of a day.
const HOUR: i64 = 60;
const DAY: i64 = 24 * HOUR;

/// Two jobs that want the same thing, so that one waits for the other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rivals {
    /// What both need: a piece of equipment or "hands".
    pub thing: String,
    /// The earlier one.
    pub one: String,
    /// The later one.
    pub other: String,
}

impl core::fmt::Display for Rivals {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let Self { thing, one, other } = self;
        if thing == "hands" {
            write!(f, "\"{one}\" and \"{other}\" need the same pair of hands")
        } else {
            write!(f, "the {thing} is needed by \"{one}\" and by \"{other}\"")
        }
    }
}

/// Why a plan cannot be kept.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Clash {
    /// The service is over.
    #[error("the service was at {service}: that is {} ago", lasting(*.by_min))]
    Past {
        /// When the service was.
        service: DateTime,
        /// How long ago, min.
        by_min: i64,
    },
    /// It should have begun.
    #[error("{}", too_late(.what, *.takes_min, *.left_min, .rivals.as_ref()))]
    TooLate {
        /// What has to be begun first: its preparation, or the job.
        what: String,
        /// From its begin to the service, min.
        takes_min: i64,
        /// From now to the service, min.
        left_min: i64,
        /// Two jobs on the way that want the same thing.
        rivals: Option<Rivals>,
    },
    /// Work does not fit into the hours of any day.
    #[error("\"{job}\" is {} of work, but the hours of a day are {}: {} too long", lasting(*.work_min), lasting(*.open_min), lasting(.work_min - .open_min))]
    Hours {
        /// The job.
        job: String,
        /// Its work, min.
        work_min: i64,
        /// Hours of a day, min.
        open_min: i64,
    },
    /// A wait ends when nobody may work.
    #[error("\"{job}\" must not wait longer than {}, then \"{next}\" has to begin: between the hours of two days lie {}, {} too long", lasting(*.most_min), lasting(*.gap_min), lasting(.gap_min - .most_min))]
    Wait {
        /// What waits.
        job: String,
        /// What has to follow.
        next: String,
        /// The longest wait, min.
        most_min: i64,
        /// The shortest that the plan would allow, min.
        gap_min: i64,
    },
    /// A job has no place in the two years before the service.
    #[error("\"{job}\" and what follows it do not fit into the two years before the service")]
    Nowhere {
        /// The job.
        job: String,
    },
    /// So many jobs are not planned.
    #[error(
        "{jobs} jobs are too many to plan at once: serve fewer house-made ingredients, or plan them apart"
    )]
    TooLarge {
        /// How many there are.
        jobs: usize,
    },
    /// There is none of what a job needs.
    #[error("\"{job}\" needs the {equipment}, of which there is none")]
    NoEquipment {
        /// What is needed.
        equipment: String,
        /// The job.
        job: String,
    },
    /// Something would be past its life when it is used.
    #[error("{}", past_life(.output, .used_for, *.days, *.over_days, .because, .rivals.as_ref()))]
    Life {
        /// What is made too early.
        output: String,
        /// What it is used for.
        used_for: String,
        /// Days that it keeps, the day of making included.
        days: i64,
        /// Days beyond that.
        over_days: i64,
        /// What says how long it keeps.
        because: String,
        /// Two jobs on the way that want the same thing.
        rivals: Option<Rivals>,
    },
    /// A batch in it has to be used before.
    #[error(
        "\"{batch}\" in \"{output}\" has to be used by {until}, {over_days} d before \"{used_for}\" on {used_on}"
    )]
    Batch {
        /// Label of the batch.
        batch: String,
        /// What it is in.
        output: String,
        /// Its last day.
        until: String,
        /// What it is used for.
        used_for: String,
        /// The day that it would be used.
        used_on: String,
        /// Days beyond.
        over_days: i64,
    },
}

impl Clash {
    /// How much later it is than it may be, or how much too long, min.
    pub fn by_min(&self) -> i64 {
        match self {
            Self::Past { by_min, .. } => *by_min,
            Self::TooLate {
                takes_min,
                left_min,
                ..
            } => takes_min - left_min,
            Self::Hours {
                work_min, open_min, ..
            } => work_min - open_min,
            Self::Wait {
                most_min, gap_min, ..
            } => gap_min - most_min,
            Self::NoEquipment { .. } | Self::Nowhere { .. } | Self::TooLarge { .. } => 0,
            Self::Life { over_days, .. } | Self::Batch { over_days, .. } => over_days * DAY,
        }
    }
}

fn too_late(what: &str, takes_min: i64, left_min: i64, rivals: Option<&Rivals>) -> String {
    let late = lasting(takes_min - left_min);
    let (takes, left) = (lasting(takes_min), lasting(left_min));
    let words = format!(
        "\"{what}\" needs {takes} but the service is in {left}: it should have begun {late} ago"
    );
    match rivals {
        Some(rivals) => format!("{words}; {rivals}, one after the other, {late} too long"),
        None => words,
    }
}

fn past_life(
    output: &str,
    used_for: &str,
    days: i64,
    over_days: i64,
    because: &str,
    rivals: Option<&Rivals>,
) -> String {
    let noun = if days == 1 { "day" } else { "days" };
    let words = format!(
        "\"{output}\" keeps {days} {noun} ({because}), but would be made {over_days} d too early for \"{used_for}\""
    );
    match rivals {
        Some(rivals) => format!("{words}: {rivals}, one after the other"),
        None => format!("{words}: the work that follows it takes longer"),
    }
}

/// Minutes as days, hours and minutes: "3 d", "1 d 2 h", "45 min".
pub fn lasting(minutes: i64) -> String {
    let minutes = minutes.max(0);
    let parts = [
        (minutes / DAY, "d"),
        (minutes % DAY / HOUR, "h"),
        (minutes % HOUR, "min"),
    ];
    let words: Vec<String> = parts
        .iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, unit)| format!("{count} {unit}"))
        .collect();
    if words.is_empty() {
        "0 min".to_owned()
    } else {
        words.join(" ")
    }
}
