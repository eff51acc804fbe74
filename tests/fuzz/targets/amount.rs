#![no_main]

#[path = "../checks/mod.rs"]
#[allow(dead_code, reason = "each target runs one of the checks")]
mod checks;

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| checks::amounts::typed(bytes));
