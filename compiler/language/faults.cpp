#include "compiler/language/faults.hpp"


namespace ferrule {
namespace fault {

// ---------------------------------------------------------------- text and blocks
const TextFault word_expected{"T-40", "word-expected", "A statement lacks a word that its meaning hangs on."};
const TextFault words_left_over{"T-41", "words-left-over",
                            "Every word has to mean something: a word that is passed over in silence is a fact that is lost."};
const TextFault block_missing{"T-42", "block-missing", "The statement needs a block in braces."};
const TextFault statement_unknown{"T-43", "statement-unknown", "A statement begins with a kind of component or a statement word."};
const TextFault statement_misplaced{"T-44", "statement-misplaced", "The statement may not stand here."};
const TextFault run_broken{"T-50", "run-broken", "A run names what the oil passes, end by end, with `--` between."};
const TextFault run_function_missing{"T-51", "run-function-missing",
                                 "A run begins with its function, because the sheet and the checks of lines go by it."};
const TextFault not_in_line{"T-52", "part-not-in-line",
                        "Only a part that the whole flow passes (a filter, a check valve) may stand in a run by its tag alone; "
                        "a relief valve put in line would carry no flow until it opens."};
const TextFault wrong_way{"T-53", "way-not-through", "A way that is spelled out has to be a passage of the component, in its sense."};
const TextFault run_backwards{"T-54", "run-backwards",
                          "Runs are written the way the oil goes, so that a filter or a check in them stands the right way."};
const TextFault port_twice_in_run{"T-55", "port-twice-in-run", "A run that meets itself is a slip: one of the two ports is meant to be another."};
const TextFault pipe_broken{"T-56", "pipe-broken", "A pipe is written in braces: kind, tag if it has one, size, facts."};
const TextFault size_unreadable{"T-57", "size-unreadable", "Each kind of pipe says how its size is written."};

// ---------------------------------------------------------------- names and files
const TextFault unknown_kind{"N-01", "unknown-kind", "No definition has this name, neither in the library nor in the text."};
const TextFault unknown_tag{"N-02", "unknown-tag", "Every tag that is used has to be declared once."};
const TextFault unknown_port{"N-03", "unknown-port", "A component has the ports that its definition names."};
const TextFault unknown_fact{"N-04", "unknown-fact", "A component has the facts that its definition names."};
const TextFault unknown_name{"N-05", "unknown-name", "A word in a formula is a `let` name or a fact."};
const TextFault unknown_position{"N-06", "unknown-position", "A valve has the positions that its rows name."};
const TextFault unknown_choice{"N-07", "unknown-choice", "The fact takes one of the words that its definition lists."};
const TextFault unknown_step{"N-08", "unknown-step", "A step is named in the cycle."};
const TextFault ambiguous_name{"N-09", "ambiguous-name", "A dotted name that can be read in two ways is read in neither."};
const TextFault fact_twice{"N-10", "fact-twice", "One fact has one place; of two values one is wrong."};
const TextFault let_twice{"N-11", "let-twice", "A name stands for one value."};
const TextFault let_cycle{"N-12", "let-cycle", "A value that is computed from itself has no value."};
const TextFault definition_twice{"N-13", "definition-twice", "Two definitions of one name would make the meaning hang on their order."};
const TextFault definition_broken{"N-14", "definition-broken", "A statement of a definition cannot be read."};
const TextFault like_cycle{"N-15", "like-cycle", "A definition or component that is like itself says nothing."};
const TextFault include_unreadable{"N-16", "include-unreadable", "A file that is included cannot be read."};
const TextFault include_cycle{"N-17", "include-cycle", "A file that includes itself would never end."};
const TextFault include_outside{"N-18", "include-outside", "An include may not leave the project: texts from strangers are checked too."};
const TextFault position_twice{"N-19", "position-twice", "A position of a valve has one row."};
const TextFault assembly_cycle{"N-20", "assembly-cycle", "An assembly that holds itself would never end."};
const TextFault rest_missing{"N-21", "rest-missing", "What every valve does while nothing acts on it decides what the machine does after a power cut."};
const TextFault path_misplaced{"N-22", "path-misplaced", "Oil that leaves the tank port or enters the pressure port of a valve is nearly always a slip."};
const TextFault port_closed_and_joined{"N-23", "port-closed-and-joined", "A port is either joined or closed; of the two statements one is left over."};
const TextFault cannot_do{"N-31", "part-cannot-do", "A step may say of a part only what such a part can do."};
const TextFault unknown_result{"N-32", "unknown-result", "A requirement or question asks for a result that is computed."};
const TextFault step_twice{"N-33", "step-twice", "A step is named once, so that `during` means one step."};
const TextFault work_word_unknown{"T-58", "work-word-unknown", "Steps and rules are made of a few words; this is none of them."};
const TextFault load_without_sense{"D-31", "load-without-sense",
                               "On an actuator that carries a weight or stands upright, a load `against` the motion would turn "
                               "round with the motion, as no weight does."};

// ---------------------------------------------------------------- dimensions and units
const TextFault unit_missing{"D-01", "unit-missing", "A number without its unit is read differently by different people."};
const TextFault unit_mismatch{"D-02", "unit-mismatch", "Only values of one dimension can be added, subtracted or compared."};
const TextFault dimension_wrong{"D-03", "dimension-wrong", "The value is of another dimension than the fact."};
const TextFault unit_unknown{"D-04", "unit-unknown", "The word behind the number is no unit."};
const TextFault out_of_limits{"D-05", "value-out-of-limits", "The definition states limits that a slip of unit or digit breaks."};
const TextFault not_finite{"D-06", "value-not-finite", "The value is too large to compute with, or not defined."};
const TextFault value_missing{"D-07", "value-missing", "The fact needs a value."};
const TextFault facts_out_of_order{"D-08", "facts-out-of-order", "The definition says which of two values is the smaller."};
const TextFault facts_missing{"D-09", "facts-missing", "The definition lists the sets of facts that are enough; none is complete.",
                          Severity::warning};
const TextFault number_unreadable{"D-10", "number-unreadable", "The number cannot be read."};

// ---------------------------------------------------------------- facts and documentation (numbers of the catalogue)
const TextFault tag_duplicate{"F-06", "tag-duplicate", "A tag names one part, on the sheet, in the parts list and on the machine."};
const TextFault port_open{"F-09", "port-open", "Every port is joined, plugged or said to be open; a forgotten one spills oil."};
const TextFault floating_part{"F-10", "floating-part", "Every part lies in a group with a reservoir; else no oil ever reaches it."};
const TextFault double_connection{"F-11", "double-connection", "A line that joins a port to itself carries nothing."};

// ---------------------------------------------------------------- limits of the tool
const TextFault too_many_parts{"M-10", "too-many-parts", "A circuit may hold 100 000 components after its assemblies are spelled out."};
const TextFault too_deep{"M-11", "too-deep", "Includes and assemblies may stand 32 deep, formulas 64."};
const TextFault too_many_files{"M-12", "too-many-files", "A circuit may be made of 2000 files and 64 MiB of text."};

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
      &number_unreadable, &tag_duplicate, &port_open, &floating_part, &double_connection, &too_many_parts, &too_deep,
      &too_many_files, &cannot_do, &unknown_result, &step_twice, &work_word_unknown, &load_without_sense};
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
