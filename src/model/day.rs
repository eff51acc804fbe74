//! Days and times as ISO 8601 writes them.

/// True for a day of the calendar written `2026-05-04`.
///
/// Two such texts compare like the days they name.
pub fn is_day(text: &str) -> bool {
    let parts: Vec<&str> = text.split('-').collect();
    let [year, month, day] = parts.as_slice() else {
        return false;
    };
    let number = |text: &str, digits: usize| {
        (text.len() == digits && text.bytes().all(|byte| byte.is_ascii_digit()))
            .then(|| text.parse::<u32>().ok())
            .flatten()
    };
    let (Some(year), Some(month), Some(day)) = (number(year, 4), number(month, 2), number(day, 2))
    else {
        return false;
    };
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let days = match month {
        4 | 6 | 9 | 11 => 30,
        2 if leap => 29,
        2 => 28,
        1..=12 => 31,
        _ => return false,
    };
    (1..=days).contains(&day)
}

/// Minutes since midnight of a time written `19:30`; `None` for anything else.
pub fn minute_of_day(text: &str) -> Option<u32> {
    let (hour, minute) = text.split_once(':')?;
    let number = |text: &str| {
        let two = text.len() == 2 && text.bytes().all(|byte| byte.is_ascii_digit());
        two.then(|| text.parse::<u32>().ok()).flatten()
    };
    let (hour, minute) = (number(hour)?, number(minute)?);
    (hour < 24 && minute < 60).then_some(hour * 60 + minute)
}
