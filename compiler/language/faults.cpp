#include "compiler/language/faults.hpp"

namespace ferrule {
namespace fault {

// ---------------------------------------------------------------- text and blocks
const TextFault word_expected{"T-40", "word-expected",
    "A statement lacks a word that its meaning hangs on.",
    "Complete the statement as the message shows, for example `place 1A1 left of 2A1`."};
const TextFault words_left_over{"T-41", "words-left-over",
    "Every word has to mean something: a word that is passed over in silence is a fact that is lost.",
    "Delete what is left over, or part it with a comma when it is a fact of its own: `{ closed, by push-button }`."};
const TextFault block_missing{"T-42", "block-missing",
    "The statement needs a block in braces.",
    "Write the block: `cycle { step up { 1Y1 on } }`."};
const TextFault statement_unknown{"T-43", "statement-unknown",
    "A statement begins with a kind of component or a statement word.",
    "Begin with a kind (`relief-valve 0V1 { setting 80 bar }`), a function (`pressure 0P1.P -- 0V1.P`) or a statement "
    "word (`require`). `ferrule list` names the kinds."};
const TextFault statement_misplaced{"T-44", "statement-misplaced",
    "The statement may not stand here.",
    "Move it where the message says: steps into `cycle`, components to the level of the file or into an assembly."};
const TextFault run_broken{"T-50", "run-broken",
    "A run names what the oil passes, end by end, with `--` between.",
    "Write end, dashes, end: `pressure 0P1.P -- 0V1.P -- {tube 16 x 2 mm, length 1 m} -- 1V1.P`."};
const TextFault run_function_missing{"T-51", "run-function-missing",
    "A run begins with its function, because the sheet and the checks of lines go by it.",
    "Write one of `pressure`, `working`, `return`, `suction`, `drain`, `pilot` in front: `return 1V1.T -- 0Z1`."};
const TextFault not_in_line{"T-52", "part-not-in-line",
    "Only a part that the whole flow passes (a filter, a check valve) may stand in a run by its tag alone; a relief "
    "valve put in line would carry no flow until it opens.",
    "Join the port that is meant: `pressure 0P1.P -- 0V1.P -- 1V1.P`, and the outlet in a run of its own: `return "
    "0V1.T -- 0Z1`."};
const TextFault wrong_way{"T-53", "way-not-through",
    "A way that is spelled out has to be a passage of the component, in its sense.",
    "Spell out a way that the component has: `CB1.V>C`. `ferrule list KIND` shows its ports."};
const TextFault run_backwards{"T-54", "run-backwards",
    "Runs are written the way the oil goes, so that a filter or a check in them stands the right way.",
    "Turn the run round: `suction 0Z1 -- 0P1.S`, `pressure 0P1.P -- 1V1.P`, `return 1V1.T -- 0Z1`."};
const TextFault port_twice_in_run{"T-55", "port-twice-in-run",
    "A run that meets itself is a slip: one of the two ports is meant to be another.",
    "Name the other port, or end the run before it."};
const TextFault pipe_broken{"T-56", "pipe-broken",
    "A pipe is written in braces: kind, tag if it has one, size, facts.",
    "Write `{tube 16 x 2 mm, length 1.5 m}`, `{hose L1 DN 12, length 1 m}` or `{bore 8 mm, length 200 mm}`."};
const TextFault size_unreadable{"T-57", "size-unreadable",
    "Each kind of pipe says how its size is written.",
    "Write `{tube 16 x 2 mm}` (outside diameter and wall), `{hose DN 12}` or `{hose bore 12 mm}`."};

// ---------------------------------------------------------------- names and files
const TextFault unknown_kind{"N-01", "unknown-kind",
    "No definition has this name, neither in the library nor in the text.",
    "Write a kind that `ferrule list` names, or define your own: `define house-valve like valve \"...\" { ... }`."};
const TextFault unknown_tag{"N-02", "unknown-tag",
    "Every tag that is used has to be declared once.",
    "Write the tag as it is declared, or declare it: `gauge 0Z4 { range 0 to 250 bar }`."};
const TextFault unknown_port{"N-03", "unknown-port",
    "A component has the ports that its definition names.",
    "Name a port of the component; the message lists them, `ferrule list KIND` says what each is for."};
const TextFault unknown_fact{"N-04", "unknown-fact",
    "A component has the facts that its definition names.",
    "Name a fact of the component; `ferrule list KIND` lists them with what each means."};
const TextFault unknown_name{"N-05", "unknown-name",
    "A word in a formula is a `let` name or a fact.",
    "Give it a value, `let load = 25 kN`, or write the value itself."};
const TextFault unknown_position{"N-06", "unknown-position",
    "A valve has the positions that its rows name.",
    "Name a position of the valve; the message lists them."};
const TextFault unknown_choice{"N-07", "unknown-choice",
    "The fact takes one of the words that its definition lists.",
    "Write one of the words that the message lists."};
const TextFault unknown_step{"N-08", "unknown-step",
    "A step is named in the cycle.",
    "Name a step of the cycle, or add it: `cycle { step press { 1Y1 on, 1A1 presses } }`."};
const TextFault ambiguous_name{"N-09", "ambiguous-name",
    "A dotted name that can be read in two ways is read in neither.",
    "Rename one of the two, so that the dots can be read in one way only."};
const TextFault fact_twice{"N-10", "fact-twice",
    "One fact has one place; of two values one is wrong.",
    "Delete the value that is wrong."};
const TextFault let_twice{"N-11", "let-twice",
    "A name stands for one value.",
    "Delete one of the two, or give it another name."};
const TextFault let_cycle{"N-12", "let-cycle",
    "A value that is computed from itself has no value.",
    "Give one of the names a value of its own."};
const TextFault definition_twice{"N-13", "definition-twice",
    "Two definitions of one name would make the meaning hang on their order.",
    "Rename one of the two; a kind of the library is varied by `define house-relief like relief-valve \"...\" { ... "
    "}`."};
const TextFault definition_broken{"N-14", "definition-broken",
    "A statement of a definition cannot be read.",
    "Write the statement of the definition as the message shows. LANGUAGE.md, part 7, has them all."};
const TextFault like_cycle{"N-15", "like-cycle",
    "A definition or component that is like itself says nothing.",
    "Let one of them state its own facts."};
const TextFault include_unreadable{"N-16", "include-unreadable",
    "A file that is included cannot be read.",
    "Write the path from the folder of this file: `include \"parts/house-valves.fer\"`."};
const TextFault include_cycle{"N-17", "include-cycle",
    "A file that includes itself would never end.",
    "Delete the include that leads back."};
const TextFault include_outside{"N-18", "include-outside",
    "An include may not leave the project: texts from strangers are checked too.",
    "Copy the file into the project and include it there."};
const TextFault position_twice{"N-19", "position-twice",
    "A position of a valve has one row.",
    "Delete one of the two rows, or name the other position."};
const TextFault assembly_cycle{"N-20", "assembly-cycle",
    "An assembly that holds itself would never end.",
    "Take the assembly out of itself."};
const TextFault rest_missing{"N-21", "rest-missing",
    "What every valve does while nothing acts on it decides what the machine does after a power cut.",
    "Write `by spring` or `by springs` behind the row that springs give, or `rest` for a valve that stays where it "
    "was put."};
const TextFault path_misplaced{"N-22", "path-misplaced",
    "Oil that leaves the tank port or enters the pressure port of a valve is nearly always a slip.",
    "Turn the arrow round, `P>A` and `B>T`; when oil is led back on purpose, write `regenerative` behind the row."};
const TextFault port_closed_and_joined{"N-23", "port-closed-and-joined",
    "A port is either joined or closed; of the two statements one is left over.",
    "Delete the run, or the statement that closes the port."};
const TextFault cannot_do{"N-31", "part-cannot-do",
    "A step may say of a part only what such a part can do.",
    "Name a part that can do it, or say what this one does."};
const TextFault unknown_result{"N-32", "unknown-result",
    "A requirement or question asks for a result that is computed.",
    "Write a result that `ferrule list results` names, behind a component, line, step, `cycle` or `oil`: `1A1.speed`."};
const TextFault step_twice{"N-33", "step-twice",
    "A step is named once, so that `during` means one step.",
    "Give the second step another name."};
const TextFault part_unfit{"N-34", "part-unfit",
    "Where one part names another, the other has to be of a sort that can do it: a valve turns no pump.",
    "Name a part of the sort that the message says: `driven-by 0M1`."};
const TextFault contact_unknown{"N-35", "contact-unknown",
    "Whether a switch is closed in a step follows from the moments at which steps end; without one a rule that asks for it "
    "would be passed over.",
    "End a step with the moment, `until PS1 opens`, or write the rule by moments: `on from PS1 closes until PS1 opens`.",
    Severity::warning};
const TextFault work_word_unknown{"T-58", "work-word-unknown",
    "Steps and rules are made of a few words; this is none of them.",
    "Use a word of the message, for example `1A1 extends 380 mm against 25 kN` or `0Y1 on whenever 1Y1`."};
const TextFault load_without_sense{"D-31", "load-without-sense",
    "On an actuator that carries a weight or stands upright, a load `against` the motion would turn round with the "
    "motion, as no weight does.",
    "Say the sense: `with 17 kN pulling out`, `with 17 kN pushing in`."};

// ---------------------------------------------------------------- dimensions and units
const TextFault unit_missing{"D-01", "unit-missing",
    "A number without its unit is read differently by different people.",
    "Write the unit behind a blank: `160 bar`. `ferrule list units` names them."};
const TextFault unit_mismatch{"D-02", "unit-mismatch",
    "Only values of one dimension can be added, subtracted or compared.",
    "Add only what is of one kind: `press + 20 bar`."};
const TextFault dimension_wrong{"D-03", "dimension-wrong",
    "The value is of another dimension than the fact.",
    "Write a value of the dimension that the message names."};
const TextFault unit_unknown{"D-04", "unit-unknown",
    "The word behind the number is no unit.",
    "Write a unit that `ferrule list units` names; a blank stands between number and unit."};
const TextFault out_of_limits{"D-05", "value-out-of-limits",
    "The definition states limits that a slip of unit or digit breaks.",
    "Look for a slip of unit or digit; the message names the limits and whose they are."};
const TextFault not_finite{"D-06", "value-not-finite",
    "The value is too large to compute with, or not defined.",
    "Look for a division by zero, a root of less than nothing, or a digit too many."};
const TextFault value_missing{"D-07", "value-missing",
    "The fact needs a value.",
    "Write the value behind the fact's word: `setting 160 bar`."};
const TextFault facts_out_of_order{"D-08", "facts-out-of-order",
    "The definition says which of two values is the smaller.",
    "Exchange the two values, or mend the one that is wrong: `cracking 150 bar, full-flow 160 bar at 24 L/min`."};
const TextFault facts_missing{"D-09", "facts-missing",
    "The definition lists the sets of facts that are enough; none is complete.",
    "State one of the sets that the message names.", Severity::warning};
const TextFault number_unreadable{"D-10", "number-unreadable",
    "The number cannot be read.",
    "Write digits with a decimal point: `1.5`, `3/8`, `1 1/4`."};

const TextFault travel_beyond_stroke{"D-11", "travel-beyond-stroke",
    "An actuator meets its end stop before a travel that is longer than its stroke, so the step never ends.",
    "Write a travel within the stroke, or choose the longer stroke at the cylinder."};

// ---------------------------------------------------------------- facts and documentation (numbers of the catalogue)
const TextFault tag_duplicate{"F-06", "tag-duplicate",
    "A tag names one part, on the sheet, in the parts list and on the machine.",
    "Give one of the two another tag."};
const TextFault port_open{"F-09", "port-open",
    "Every port is joined, plugged or said to be open; a forgotten one spills oil.",
    "Join the port, or say that it is meant: `plugged 1V1.B`, `open 0V3.X because \"vented into the spring "
    "chamber\"`."};
const TextFault floating_part{"F-10", "floating-part",
    "Every part lies in a group with a reservoir; else no oil ever reaches it.",
    "Join its group with a reservoir, or delete the part."};
const TextFault double_connection{"F-11", "double-connection",
    "A line that joins a port to itself carries nothing.",
    "Name the other end of the line."};

const TextFault fluids_joined{"F-30", "fluids-joined",
    "Two fluids that meet spoil each other, and no number holds for the mixture.",
    "Part the two circuits, by a cylinder or a cooler, or give both reservoirs the same fluid."};

// ---------------------------------------------------------------- limits of the tool
const TextFault too_many_parts{"M-10", "too-many-parts",
    "A circuit may hold 100 000 components after its assemblies are spelled out.",
    "Split the machine into circuits of its own."};
const TextFault too_deep{"M-11", "too-deep",
    "Includes and assemblies may stand 32 deep, formulas 64.",
    "Flatten the files or assemblies; name parts of long formulas by `let`."};
const TextFault too_many_rows{"M-13", "too-many-rows",
    "A valve may have 64 positions of 64 paths, a cycle 2000 steps; what has more was made to be slow.",
    "Split the machine into circuits of its own."};
const TextFault too_many_files{"M-12", "too-many-files",
    "A circuit may be made of 2000 files and 64 MiB of text.",
    "Split the machine into circuits of its own."};

}  // namespace fault

std::span<const TextFault* const> text_faults() {
  using namespace fault;
  static const TextFault* const all[] = {
      &word_expected, &words_left_over, &block_missing, &statement_unknown, &statement_misplaced, &run_broken,
      &run_function_missing, &not_in_line, &wrong_way, &run_backwards, &port_twice_in_run, &pipe_broken, &size_unreadable,
      &unknown_kind, &unknown_tag, &unknown_port, &unknown_fact, &unknown_name, &unknown_position, &unknown_choice,
      &unknown_step, &ambiguous_name, &fact_twice, &let_twice, &let_cycle, &definition_twice, &definition_broken, &like_cycle,
      &include_unreadable, &include_cycle, &include_outside, &position_twice, &assembly_cycle, &rest_missing, &path_misplaced,
      &port_closed_and_joined, &unit_missing, &unit_mismatch,
      &dimension_wrong, &unit_unknown, &out_of_limits, &not_finite, &value_missing, &facts_out_of_order, &facts_missing,
      &number_unreadable, &travel_beyond_stroke, &tag_duplicate, &port_open, &floating_part, &double_connection, &fluids_joined, &too_many_parts, &too_deep,
      &too_many_files, &too_many_rows, &cannot_do, &unknown_result, &step_twice, &work_word_unknown, &load_without_sense, &part_unfit, &contact_unknown};
  return all;
}

Message message_of(const TextFault& fault, Span at, std::string sentence, std::string fix, std::string phrase) {
  Message message;
  message.code = fault.code;
  message.rule = fault.rule;
  message.severity = fault.severity;
  message.sentence = std::move(sentence);
  message.places.push_back({at, std::move(phrase)});
  message.fix = std::move(fix);
  return message;
}

}  // namespace ferrule
