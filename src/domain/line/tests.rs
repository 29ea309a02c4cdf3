use super::*;
use proptest::prelude::*;

fn close(found: f64, expected: f64, within: f64) {
    assert!((found - expected).abs() <= within, "{found} is not {expected}");
}

/// Computed independently from the textbook formulas: kg, m/s, N/m, then the pull in N.
#[test]
fn the_table_of_pulls() {
    for (kg, speed, stiffness, pull) in [
        (20.0, 5.0, 1000.0, 707.1),
        (20.0, 8.0, 1000.0, 1131.4),
        (10.0, 5.0, 1000.0, 500.0),
        (30.0, 8.0, 2000.0, 1959.6),
        (5.0, 5.0, 500.0, 250.0),
        (30.0, 10.0, 5000.0, 3873.0),
    ] {
        close(peak_pull(kg, speed, stiffness), pull, 0.05);
    }
    close(peak_pull(20.0, 8.0, 1000.0) / (20.0 * GRAVITY), 5.77, 0.005);
}

/// The same dog in the other terms: 20 kg at 5 m/s on 1000 N/m.
#[test]
fn one_stop_in_every_term() {
    close(energy(20.0, 5.0), 250.0, 1e-12);
    close(stretch(20.0, 5.0, 1000.0), 0.707, 5e-4);
    close(stretch(20.0, 5.0, 1000.0), peak_pull(20.0, 5.0, 1000.0) / 1000.0, 1e-12);
    close(mean_pull(20.0, 5.0, 0.5), 500.0, 1e-12);
    // A spring's peak is π/2 of the mean over time: momentum 100 N s, stopped in t.
    let t = stop_time(20.0, 1000.0);
    close(t, 0.2221, 5e-5);
    close(100.0 / t * std::f64::consts::FRAC_PI_2, peak_pull(20.0, 5.0, 1000.0), 1e-9);
}

#[test]
fn a_longer_line_is_softer() {
    for (length, expected) in [(5.0, 2000.0), (10.0, 1000.0), (20.0, 500.0)] {
        close(stiffness(LINE_MODULUS, length), expected, 1e-12);
    }
}

#[test]
fn a_dog_speeds_up_until_it_sprints() {
    close(speed_in_slack(0.0), 0.0, 0.0);
    close(speed_in_slack(0.2), 2.0, 1e-12);
    close(speed_in_slack(2.0), 40.0_f64.sqrt(), 1e-12);
    close(speed_in_slack(3.96), SPRINT, 0.01);
    close(speed_in_slack(10.0), SPRINT, 0.0);
}

#[test]
fn what_happens_when_the_line_comes_tight() {
    let tight = come_tight(20.0, 10.0, 10.0).expect("it can be");
    close(tight.speed, 8.9, 1e-12);
    close(tight.energy, 792.1, 0.05);
    close(tight.peak, 1258.7, 0.05);
    close(tight.body_weights, 6.42, 0.005);
    close(tight.stretch, 1.2587, 5e-5);
    close(tight.stop, 0.2221, 5e-5);
}

#[test]
fn what_cannot_be_has_no_figures() {
    for (kg, line, slack) in [
        (0.09, 10.0, 5.0),
        (-1.0, 10.0, 5.0),
        (151.0, 10.0, 5.0),
        (20.0, 0.49, 0.4),
        (20.0, 101.0, 5.0),
        (20.0, 10.0, 10.1),
        (20.0, 10.0, -0.1),
        (f64::NAN, 10.0, 5.0),
        (20.0, f64::INFINITY, 5.0),
        (20.0, 10.0, f64::NAN),
    ] {
        assert_eq!(come_tight(kg, line, slack), None, "{kg} {line} {slack}");
    }
    assert!(come_tight(150.0, 100.0, 100.0).is_some() && come_tight(20.0, 10.0, 0.0).is_some());
    assert_eq!(longest_slack(20.0, 10.0, -1.0), None);
    assert_eq!(longest_slack(20.0, 10.0, f64::NAN), None);
    assert_eq!(longest_slack(0.0, 10.0, 100.0), None);
}

#[test]
fn a_step_of_slack_is_a_jerk_already() {
    let jerk = longest_slack(20.0, 10.0, PULLS[0].newtons).expect("it can be");
    let hardest = longest_slack(20.0, 10.0, PULLS[1].newtons).expect("it can be");
    close(jerk, 0.0497, 5e-5);
    close(hardest, 0.0990, 5e-5);
    assert_eq!(longest_slack(20.0, 10.0, 1e6), Some(10.0));
    assert_eq!(longest_slack(20.0, 10.0, 0.0), Some(0.0));
}

/// Two studies: harder on a harness. So the two are never joined.
#[test]
fn a_harness_spares_the_neck_and_is_not_said_to_lessen_pulling() {
    assert!(HARNESS.contains("spares the neck") && HARNESS.contains("does not make a dog pull less"));
    let said = PRACTICE.join(" ") + &ASSUMPTIONS.map(|a| a.text).join(" ");
    for claim in ["pull less", "pulls less", "stops pulling", "reduces pulling", "safe"] {
        assert!(!said.contains(claim), "{claim}");
    }
    for source in ["42:207", "8:735680"] {
        assert!(HARNESS_SOURCE.contains(source), "{source}");
    }
    assert!(ASSUMPTIONS.iter().all(|a| !a.source.is_empty() && !a.text.contains("  ")));
}

#[test]
fn the_assumptions_state_the_figures_that_are_used() {
    let said = ASSUMPTIONS.map(|a| a.text).join(" ");
    assert!(said.contains(&format!("by {ACCELERATION} m/s")));
    assert!(said.contains(&format!("at {SPRINT} m/s")));
    assert!((LINE_MODULUS - 10_000.0).abs() < f64::EPSILON && said.contains("10,000 N"));
}

proptest! {
    #[test]
    fn a_heavier_dog_never_pulls_less(kg in 0.1_f64..150.0, more in 0.0_f64..1.0, line in 0.5_f64..100.0, part in 0.0_f64..=1.0) {
        let heavier = kg + (150.0 - kg) * more;
        let pull = |kg| come_tight(kg, line, line * part).expect("it can be").peak;
        prop_assert!(pull(heavier) >= pull(kg));
    }

    #[test]
    fn more_slack_never_pulls_less(kg in 0.1_f64..150.0, line in 0.5_f64..100.0, part in 0.0_f64..=1.0, more in 0.0_f64..=1.0) {
        let less = line * part * more;
        let pull = |slack| come_tight(kg, line, slack).expect("it can be").peak;
        prop_assert!(pull(line * part) >= pull(less));
    }

    #[test]
    fn the_longest_slack_keeps_the_pull_and_a_little_more_breaks_it(
        kg in 1.0_f64..100.0, line in 1.0_f64..50.0, most in 1.0_f64..3000.0,
    ) {
        let slack = longest_slack(kg, line, most).expect("it can be");
        let pull = |slack| come_tight(kg, line, slack).expect("it can be").peak;
        prop_assert!(pull(slack) <= most + 1e-6);
        if slack < line {
            prop_assert!(pull((slack * 1.01).min(line)) > most);
        }
    }

    #[test]
    fn no_number_panics(kg in any::<f64>(), line in any::<f64>(), slack in any::<f64>(), most in any::<f64>()) {
        if let Some(tight) = come_tight(kg, line, slack) {
            prop_assert!(tight.peak.is_finite() && tight.energy.is_finite());
        }
        let _ = longest_slack(kg, line, most);
    }
}
