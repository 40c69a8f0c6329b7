//! Promises that cross crates: one module a promise, each opening with what it promises.

mod ablation; // a mechanism switched off takes its effects with it
mod answers; // who gains and who loses against an answer of the zone is what its possessions say
mod any_scenario; // whatever scenario the loader takes is played by the book
mod attack_craft; // screens, fakes, starts and spacing work through bodies, sight and choice
mod audit; // films look like basketball as far as a rule can tell, and no read makes nearly all looks
mod bootstrapped; // intervals by drawing again are the library's, of the possessions that were played
mod charting; // a zone taken for another is found out by a chart, and little else
mod checklist; // what a coach would hold an attack to, line by line
mod chosen; // what is left of a choice is measured and put on record, and factors are not told of it
mod command_line; // what a user types, what is written, and the exit codes
mod controls; // stupid strategies against the plan: as they are found
mod craft; // each dial of the zone moves what it should, and nothing when it is off
mod dependencies; // what is built in may be built in, and once
mod determinism; // same seed, same bytes: twice, on any threads, in any batches, in debug and release
mod emergence; // screens and seals work through bodies and nothing else
mod film; // a film is the very possession that the batch counted
mod floor; // everybody stays on the floor, and who steps out with the ball has lost it
mod forced; // what every look of a plan costs where it is forced
mod invalid; // a broken file says what is wrong with it, in words that are kept beside it
mod limits; // at its ends the model does what anyone can tell without it
mod looks; // two looks at what a test demands
mod manners; // the attack does nothing that one would laugh at on a floor
mod mirror; // left is right's mirror image, to the bit
mod names; // what a route is called changes nothing; where it runs changes everything
mod opponents; // what was scouted of a line or a position comes out of bodies, sight and choice
mod pairing; // identical variants differ by exactly nothing; no draw of chance is used twice
mod plans; // what a team has been taught is kept to, and worth something
mod played; // what a first look has played, a second one does not play again
mod players; // what is said of a player comes out of the possessions, and is read back by name
mod records; // what is put on record is what was counted, and can be found again
mod reference; // the values of outside sources and libraries, committed beside the tests
mod report; // the report shows what the files hold, the files what was counted, and nothing is fetched
mod scouting; // sightings give the truth back at the stated rate
mod sheet; // the coach's page says what the tables say, on two pages
mod shots_taken; // shots are taken as the table has them by which shares become parameters
mod soak; // for an hour the same bytes and no memory that grows (ignored)
mod source; // source code read as tokens: bare numbers, and which modules name which
mod standing; // a route brings more than standing where it starts, or is seen not to
mod steps; // the eight stages, in order, with no conflict left to chance
mod studied; // what takes too long is judged by hand, and the tests glance at it
mod support; // matchups, a runner on all cores, the command line as a function, source files
mod taught; // what teaching is worth: plans, how well they are known, short lists and long
mod tidy; // dependencies, file lengths, paths in the documents, every data file plays
mod trade; // what coaches know of zones comes out of the model, of itself
mod until_sure; // looking until it is sure claims no more than one look would, and chooses well
mod verdict; // terminal, report, sheet and cards claim the same, and advise nobody to run what he meets
mod vocabulary; // the words of routes and options do what they say
mod week; // the week of the guide runs, from players to the sheet
mod who; // of a squad the better ones are found, and no difference is told where there is none
mod who_played; // the same of two rovers on the engine itself
mod worth; // continuation values are computed, and follow players and clock
