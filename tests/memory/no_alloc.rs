//! Nothing allocates inside a step: once a world is filled and warm, the global allocator is not called again.
//!
//! In builds with debug assertions the engine keeps a register of the keys of random draws, to see that none is
//! used twice; that register grows, and is the one thing let pass, by the name of the function that writes to it.
//!
//! What it has caught: nothing yet.
#![expect(unsafe_code, reason = "a global allocator is unsafe to write; this one hands everything on")]

use std::alloc::{GlobalAlloc, Layout, System};
use std::backtrace::Backtrace;
use std::cell::{Cell, RefCell};

use engine::Arena;

/// Notes where the thread that is being watched allocates.
struct Watched;

#[global_allocator]
static ALLOCATOR: Watched = Watched;

thread_local! {
    static WATCHING: Cell<bool> = const { Cell::new(false) };
    static SEEN: RefCell<Vec<Backtrace>> = const { RefCell::new(Vec::new()) };
}

/// Notes an allocation; what the noting itself allocates is not noted.
fn note() {
    if WATCHING.replace(false) {
        SEEN.with_borrow_mut(|seen| seen.push(Backtrace::force_capture()));
        WATCHING.set(true);
    }
}

// SAFETY: every call is handed on to the system's allocator as it came.
unsafe impl GlobalAlloc for Watched {
    unsafe fn alloc(&self, layout: Layout) -> *mut u8 {
        note();
        // SAFETY: the caller's promises are passed on.
        unsafe { System.alloc(layout) }
    }

    unsafe fn dealloc(&self, at: *mut u8, layout: Layout) {
        // SAFETY: as above.
        unsafe { System.dealloc(at, layout) }
    }

    unsafe fn realloc(&self, at: *mut u8, layout: Layout, size: usize) -> *mut u8 {
        note();
        // SAFETY: as above.
        unsafe { System.realloc(at, layout, size) }
    }
}

/// What `work` allocates on this thread.
fn allocations(work: impl FnOnce()) -> Vec<Backtrace> {
    WATCHING.set(true);
    work();
    WATCHING.set(false);
    SEEN.take()
}

/// The register of used keys, which debug builds keep.
fn keeps_the_register(at: &str) -> bool {
    cfg!(debug_assertions) && at.contains("option_bits")
}

#[test]
fn an_allocation_would_be_seen() {
    let seen = allocations(|| drop(std::hint::black_box(Vec::<u8>::with_capacity(100))));
    assert_eq!(seen.len(), 1);
    assert!(!keeps_the_register(&seen[0].to_string()));
}

#[test]
fn nothing_allocates_inside_a_step() {
    let question = scenarios::bundled_question().unwrap_or_else(|faults| panic!("{faults}"));
    for variant in &question.variants {
        let mut arena = Arena::new(16);
        arena.fill(&variant.setup, 1);
        // The schedule is built in the first step.
        (0..5).for_each(|_| arena.step());
        // 30 s: passes, shots, rebounds and ends are among them.
        let seen = allocations(|| (0..600).for_each(|_| arena.step()));
        for place in seen.iter().map(ToString::to_string) {
            assert!(keeps_the_register(&place), "{}: a step allocates at\n{place}", variant.name);
        }
    }
}
