// The language as a grammar: its words are those of LANGUAGE.md, part 1. No actions, messages or model in here.
//
// parse() reads `tokens` and stacks the blocks itself, because a missing brace can only be mended by weighing two readings of
// the same tokens. `file` states the structure all the same; the tests hold both against each other on every clean text.
#pragma once

#include <tao/pegtl.hpp>

namespace ferrule::rules {

using namespace tao::pegtl;

// ---------------------------------------------------------------- blanks, lines, comments

// No-break and typographic blanks come with pasted text; they part words like any blank.
struct typographic_blank : sor<utf8::one<0x00A0, 0x1680, 0x202F, 0x205F, 0x3000>, utf8::range<0x2000, 0x200A>> {};
struct blank : sor<one<' ', '\t', '\f'>, typographic_blank> {};
struct line_end : sor<one<'\n'>, string<'\r', '\n'>> {};
struct comment : seq<one<'#'>, star<not_one<'\n'>>> {};

// ---------------------------------------------------------------- words

// Letters of units as they are pasted: the degree, the two micro signs, superscripts.
struct unit_letter : sor<utf8::one<0x00B0, 0x00B5, 0x03BC, 0x00B9, 0x00B2, 0x00B3, 0x2070, 0x207B>, utf8::range<0x2074, 0x2079>> {};
struct word_letter : sor<ranges<'a', 'z', 'A', 'Z', '0', '9', '_'>, unit_letter> {};
// A hyphen, a dot (also the raised one of `N·m`) and the stroke of a unit bind inside a word only.
struct joint : sor<one<'-', '.', '/'>, utf8::one<0x00B7, 0x22C5>> {};
struct word_goes_on : sor<word_letter, seq<joint, word_letter>> {};
struct foreign_letter
    : sor<utf8::range<0x00C0, 0x00D6>, utf8::range<0x00D8, 0x00F6>, utf8::range<0x00F8, 0x02FF>, utf8::range<0x0370, 0x03BB>,
          utf8::range<0x03BD, 0x1FFF>, utf8::range<0x2C00, 0x2DFF>, utf8::range<0x3040, 0xD7FF>> {};
struct percent : one<'%'> {};
struct name : seq<plus<word_letter>, star<joint, plus<word_letter>>, not_at<foreign_letter>> {};
struct word : sor<name, percent> {};

// ---------------------------------------------------------------- numbers and dates

struct digits : plus<digit> {};
struct power_of_ten : seq<one<'e'>, opt<one<'+', '-'>>, digits> {};
struct decimal : seq<sor<seq<digits, opt<one<'.'>, digits>>, seq<one<'.'>, digits>>, opt<power_of_ten>> {};
struct fraction : seq<digits, one<'/'>, digits> {};
struct mixed_number : seq<digits, plus<blank>, fraction> {};   // 1 1/4 in
struct ratio : seq<decimal, one<':'>, decimal> {};             // 4:1
struct figure : sor<mixed_number, ratio, seq<fraction, not_at<word_goes_on>>, decimal> {};
struct number : seq<opt<one<'-', '+'>>, figure, not_at<word_goes_on>> {};
struct date : seq<rep<4, digit>, one<'-'>, rep<2, digit>, one<'-'>, rep<2, digit>, not_at<word_goes_on>> {};

// ---------------------------------------------------------------- texts and signs

struct quote : one<'"'> {};
struct escaped : seq<one<'\\'>, not_one<'\r', '\n'>> {};
struct text : seq<quote, star<sor<escaped, not_one<'"', '\\', '\r', '\n'>, seq<one<'\\'>, at<line_end>>>>, quote, not_at<word_letter>> {};
struct dash : seq<string<'-', '-'>, not_at<one<'-', '>'>>> {};
struct sign : sor<string<'<', '>'>, string<'|', '>'>, one<'>', '<', '~', '-', '(', ')', '+', '*', '/', '=', ':'>> {};

// ---------------------------------------------------------------- statements

struct comma : one<','> {};
struct opening_brace : one<'{'> {};
struct closing_brace : one<'}'> {};

struct block;
struct in_parentheses;
struct value_in_parentheses : sor<text, date, number, word, dash, in_parentheses, seq<not_at<one<'(', ')'>>, sign>> {};
// In parentheses a comma parts values: max(2 bar, p).
struct in_parentheses : seq<one<'('>, star<sor<blank, comma, value_in_parentheses>>, one<')'>> {};
struct term : sor<text, date, number, word, dash, in_parentheses, sign, block> {};

struct gap : star<sor<blank, comment, line_end>> {};
struct end_of_line : seq<star<blank>, opt<comment>, sor<line_end, eof>> {};
// A long run goes on where the next line begins with `--`; a block may open on the next line.
struct goes_on_below : seq<end_of_line, gap, at<sor<dash, opening_brace>>> {};
struct item : list<term, sor<goes_on_below, star<blank>>> {};

struct item_end : sor<seq<star<blank>, comma, gap>, seq<at<end_of_line>, gap, opt<comma, gap>>> {};
struct items : opt<list<item, item_end>, opt<item_end>> {};
struct block : seq<opening_brace, gap, items, star<blank>, closing_brace> {};

struct statement : seq<item, end_of_line> {};
struct file : seq<gap, star<statement, gap>, eof> {};

// ---------------------------------------------------------------- what is not the language but is met in texts

struct long_dash : plus<sor<utf8::range<0x2010, 0x2015>, utf8::one<0x2212>>> {};
struct number_with_long_minus : seq<utf8::one<0x2010, 0x2011, 0x2012, 0x2013, 0x2212>, figure, not_at<word_goes_on>> {};
struct curly_quote : utf8::one<0x201C, 0x201D, 0x201E, 0x201F, 0x2018, 0x2019, 0x201A, 0x00AB, 0x00BB> {};
struct text_in_curly_quotes
    : seq<curly_quote, star<not_at<sor<curly_quote, quote, line_end>>, utf8::any>, sor<curly_quote, quote>> {};
struct text_in_single_quotes : seq<one<'\''>, plus<not_one<'\'', '"', '{', '}', ',', '\r', '\n'>>, one<'\''>> {};
// The rest of the line is read as usual from the first brace, comma or quote on, so that one slip stays one slip.
struct unclosed_text : seq<quote, star<not_one<'"', '{', '}', ',', '#', '\r', '\n'>>> {};
struct inch_mark : seq<figure, quote> {};
struct decimal_comma : seq<opt<one<'-', '+'>>, digits, one<','>, digits, not_at<word_goes_on>> {};
struct word_with_foreign_letters : seq<plus<sor<word_letter, foreign_letter>>, star<joint, plus<sor<word_letter, foreign_letter>>>> {};
// Controls, zero-width and direction characters: they make a text look like another one.
struct control_character : sor<ranges<'\x00', '\x08', '\x0b', '\x0b', '\x0d', '\x1f', '\x7f'>, utf8::range<0x80, 0x9F>> {};
struct direction_character : sor<utf8::range<0x200E, 0x200F>, utf8::range<0x202A, 0x202E>, utf8::range<0x2066, 0x2069>, utf8::one<0x061C>> {};
struct zero_width_character : sor<utf8::range<0x200B, 0x200D>, utf8::range<0x2028, 0x2029>, utf8::range<0x2060, 0x206F>,
                                  utf8::one<0x00AD, 0x180E, 0xFEFF>> {};
struct hidden_character : sor<control_character, direction_character, zero_width_character> {};
// Scripts need joiners, so a text may hold zero-width characters.
struct hidden_in_text : sor<control_character, direction_character> {};
struct strange_pair : sor<string<'-', '-', '>'>, seq<string<'-', '-'>, plus<one<'-'>>>, string<'-', '>'>, string<'=', '>'>,
                          string<'<', '='>, string<'>', '='>, string<'=', '='>, string<'!', '='>, string<'/', '/'>, string<'/', '*'>> {};
struct strange_sign : sor<plus<one<';', '[', ']', '!', '?', '@', '&', '$', '^', '\\', '|', '`', '\'', '.'>>, utf8::any> {};

// ---------------------------------------------------------------- the same text as a row of tokens

struct blanks : plus<blank> {};
struct between_terms : sor<blanks, comment, line_end> {};
struct clean_token : sor<text, date, number, word, comma, opening_brace, closing_brace, dash> {};
struct strange_token : sor<hidden_character, unclosed_text, text_in_curly_quotes, number_with_long_minus, long_dash, word_with_foreign_letters,
                           text_in_single_quotes, strange_pair> {};
struct token : sor<between_terms, decimal_comma, inch_mark, clean_token, strange_token, sign, strange_sign> {};
struct tokens : until<eof, token> {};

}  // namespace ferrule::rules
