//! Minutes of a plan: counted from the midnight before the service, whole, below 0 on earlier days.

use super::error::ServiceError;
use crate::model::{ServicePlan, minute_of_day};
use jiff::SignedDuration;
use jiff::civil::{Date, DateTime, Time};

/// Minutes of a day.
pub(super) const DAY: i64 = 24 * 60;

/// The service and the hours of work in minutes.
pub(super) struct Clock {
    day: Date,
    /// When the service begins.
    pub(super) service_min: i64,
    /// When work may begin and end on each day; `None` for any time.
    pub(super) hours: Option<(i64, i64)>,
}

impl Clock {
    /// Reads day, time and hours; fails for one that is missing or cannot be read.
    pub(super) fn of(plan: &ServicePlan) -> Result<Self, ServiceError> {
        let minute = |field, text: &str| {
            let minute = minute_of_day(text).map(i64::from);
            minute.ok_or_else(|| ServiceError::field(field, "must be a time such as 19:30"))
        };
        let day = plan.on.parse();
        let day = day
            .map_err(|_| ServiceError::field("service day", "must be a day such as 2026-05-04"))?;
        let hours = match &plan.hours {
            None => None,
            Some(hours) => {
                let (from, to) = (
                    minute("hours from", &hours.from)?,
                    minute("hours to", &hours.to)?,
                );
                if to <= from {
                    return Err(ServiceError::field(
                        "hours to",
                        "must be later than the begin",
                    ));
                }
                Some((from, to))
            }
        };
        Ok(Self {
            day,
            service_min: minute("service time", &plan.at)?,
            hours,
        })
    }

    /// The point in time of a minute.
    pub(super) fn at(&self, minute: i64) -> DateTime {
        let midnight = self.day.to_datetime(Time::midnight());
        midnight.saturating_add(SignedDuration::from_mins(minute))
    }

    /// When the service is.
    pub(super) fn service(&self) -> DateTime {
        self.at(self.service_min)
    }

    /// The minute of a point in time, a begun one being over.
    pub(super) fn minute_of(&self, at: DateTime) -> i64 {
        let midnight = self.day.to_datetime(Time::midnight());
        let since: SignedDuration = at.duration_since(midnight);
        // Seconds of a begun minute are gone.
        let minutes = since.as_secs().div_euclid(60);
        if since.as_secs().rem_euclid(60) > 0 {
            minutes + 1
        } else {
            minutes
        }
    }
}

/// The day that a minute lies in, the day of the service being 0.
pub(super) const fn day_of(minute: i64) -> i64 {
    minute.div_euclid(DAY)
}
