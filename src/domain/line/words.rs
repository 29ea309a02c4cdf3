//! The assumptions, the measured pulls beside them, and what follows in practice.

/// One assumption behind the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Assumption {
    /// What is assumed, and which way it errs.
    pub text: &'static str,
    /// Where it comes from, and how sure that is.
    pub source: &'static str,
}

/// All of them.
pub const ASSUMPTIONS: [Assumption; 5] = [
    Assumption {
        text: "The dog starts from standing and speeds up by 10 m/s in each second until it sprints. Most dogs are slower \
               off the mark, so this errs on the high side.",
        source: "A round figure, about one g, from memory. Racing greyhounds at the start come near a limit set by the shape of \
                 the body and do not pass it: Williams, Tan, Usherwood & Wilson 2009, Biol Lett 5:610–613.",
    },
    Assumption {
        text: "It sprints at 8.9 m/s (20 mph). Sighthounds are faster, up to 17 m/s: for them, double the pull at a \
               sprint; for puppies and short-legged dogs it is lower.",
        source: "Most pet dogs 6.7–8.9 m/s: OMSI museum hand-out, weak. Greyhound 17 m/s: Hudson, Corr & Wilson 2012, J Exp \
                 Biol 215:2425–2434.",
    },
    Assumption {
        text: "The line is a spring: 10,000 N would double its length, so a 10 m line gives 1 m for 1,000 N. A line four \
               times as stiff doubles the pull; a stretchy piece in it lowers the pull.",
        source: "A round figure; no measured one was found for training lines. Mechanics: any textbook.",
    },
    Assumption {
        text: "The other end does not give way at all. A handler who steps or bends with the line lowers the pull; a post or \
               a braced handler does not.",
        source: "Common practice.",
    },
    Assumption {
        text: "Level ground, the dog runs straight out and does not brake. Downhill is harder.",
        source: "Common practice.",
    },
];

/// A pull that was measured, for comparison.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PublishedPull {
    /// Newtons.
    pub newtons: f64,
    /// What it is.
    pub what: &'static str,
    /// Where it was measured.
    pub source: &'static str,
}

/// Measured pulls, the smaller first.
pub const PULLS: [PublishedPull; 2] = [
    PublishedPull {
        newtons: 141.0,
        what: "a jerk on a lead",
        source: "Mean jerk as modelled in Carter, Roshier & McNally 2020, Vet Rec 187(7):e52, where no collar was judged kind \
                 enough to the neck.",
    },
    PublishedPull {
        newtons: 199.0,
        what: "the hardest pull of pet dogs on a harness",
        source: "Peak 198.84 N, 28 dogs outdoors: Bailey, Discepolo, Baker & Perry 2024, J Vet Behav, \
                 doi 10.1016/j.jveb.2024.10.007.",
    },
];

/// What a harness does, and what it does not.
pub const HARNESS: &str = "A harness with the line on its back ring spares the neck. It does not make a dog pull less: in two \
    studies dogs pulled harder on a harness than on a collar.";

/// Where that comes from.
pub const HARNESS_SOURCE: &str = "Eye pressure rises with a collar and not with a harness: Pauli et al. 2006, JAAHA 42:207–211. \
    Pull: Shih et al. 2021, Front Vet Sci 8:735680 (with food; no difference with a toy); Bailey et al. 2024, J Vet Behav.";

/// What follows in practice. Common practice.
pub const PRACTICE: [&str; 5] = [
    "Hold the line so that little of it lies loose: let it out as the dog walks, take it in as the dog comes.",
    "Clip it to the back ring of a well-fitting harness.",
    "No loop round hand, wrist or leg; wear gloves.",
    "See a run coming: call, walk along, let the line slide and slow it, before it comes tight.",
    "Not beside roads or other dogs on lines.",
];
