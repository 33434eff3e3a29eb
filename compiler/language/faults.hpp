// The faults of a text that readers of statements report: code, rule name, and why it matters (for `ferrule explain`).
//
// Families (diagnostics): T text and blocks, N names and files, D dimensions and units, F facts and documentation,
// M limits of the tool. T-01 to T-39 belong to the grammar; the F numbers are places in the catalogue of checks.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "grammar/message.hpp"

namespace ferrule {

struct TextFault {
  std::string_view code, rule;
  std::string_view why;    // for `ferrule explain`, as is `write`: what to write instead, with an example
  std::string_view write;
  Severity severity = Severity::error;
};

namespace fault {
extern const TextFault word_expected, words_left_over, block_missing, statement_unknown, statement_misplaced, run_broken,
    run_function_missing, not_in_line, wrong_way, run_backwards, port_twice_in_run, pipe_broken, size_unreadable;
extern const TextFault unknown_kind, unknown_tag, unknown_port, unknown_fact, unknown_name, unknown_position, unknown_choice,
    unknown_step, ambiguous_name, fact_twice, let_twice, let_cycle, definition_twice, definition_broken, like_cycle,
    include_unreadable, include_cycle, include_outside, position_twice, assembly_cycle, cannot_do, unknown_result, step_twice,
    work_word_unknown, load_without_sense, part_unfit, contact_unknown, travel_beyond_stroke;
extern const TextFault rest_missing, path_misplaced, port_closed_and_joined;
extern const TextFault unit_missing, unit_mismatch, dimension_wrong, unit_unknown, out_of_limits, not_finite, value_missing,
    facts_out_of_order, facts_missing, number_unreadable;
extern const TextFault tag_duplicate, port_open, floating_part, double_connection, fluids_joined;
extern const TextFault too_many_parts, too_deep, too_many_files, too_many_rows;
}  // namespace fault

// All of them, by code. A test holds codes and names apart.
std::span<const TextFault* const> text_faults();

// A message about the text at `at`; more places may be added with push_back.
Message message_of(const TextFault& fault, Span at, std::string sentence, std::string fix = {}, std::string phrase = {});

}  // namespace ferrule
