#![allow(warnings)]
mod problems;
use equipour::rebalance::*;
use problems::*;
fn main() {
    let n: usize = std::env::var("N").unwrap().parse().unwrap();
    let want: usize = std::env::var("WANT").unwrap().parse().unwrap();
    let reps: usize = std::env::var("REPS").unwrap_or("1".into()).parse().unwrap();
    let mut seeds = Seeds::new(20_261_125);
    for k in 0..100 {
        let q = question(&mut seeds, n);
        if want == k || want == 1000 {
            let mut best = f64::INFINITY;
            let mut p = None;
            for _ in 0..reps {
                let t = std::time::Instant::now();
                p = nearest(&q).unwrap();
                best = best.min(t.elapsed().as_secs_f64() * 1e6);
            }
            let p = p.unwrap();
            println!(
                "{} {k} us {best:.0} gap {} d {} change {}",
                p.evidence[0].nodes, p.evidence[0].gap, p.distance, p.change_steps
            );
        }
    }
}
