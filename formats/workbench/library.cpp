#include "formats/workbench/library.h"

#include <algorithm>
#include <array>
#include <utility>

#include <nlohmann/json.hpp>

#include "formats/document.h"
#include "formats/json_print.h"
#include "formats/layout_checks.h"
#include "formats/shot_option.h"
#include "formats/units.h"
#include "formats/values.h"
#include "formats/workbench/json_object.h"

namespace ahead::formats {
namespace {

using nlohmann::ordered_json;

constexpr std::string_view request = "request";
constexpr std::size_t most_name_bytes = 200;
constexpr std::size_t most_note_bytes = 2000;
constexpr std::array<std::string_view, 2> purposes{"game", "practice"};

/// The members of a JSON object, without its braces.
std::string members(const ordered_json& object) {
  const std::string text = object.dump();
  return text.substr(1, text.size() - 2);
}

std::string layout_facts(const coach::Layout& layout, const std::optional<InputError>& fault) {
  ordered_json facts{{"balls", layout.balls.size()}, {"fault", nullptr}};
  if (fault) {
    facts["fault"] = {{"place", fault->place},
                      {"wrong", fault->wrong},
                      {"mend", fault->mend},
                      {"detail", fault->wrong + "; " + fault->mend}};
  }
  return members(facts);
}

void add_layout(Draft& draft, const Field& document) {
  coach::Layout layout = bare_layout_of(document);
  const coach::Layout as_set = layout;
  try {
    settle_layout(layout, {.file = std::string(request), .place = ""});
    draft.facts = layout_facts(layout, std::nullopt);
    draft.document = json_of(layout).dump();
  } catch (const Refused& refused) {
    draft.facts = layout_facts(as_set, refused.error);
    draft.document = json_of(as_set).dump();
  }
}

void add_plan(Draft& draft, const Field& document, const nlohmann::json& as_sent) {
  const coach::Plan plan = plan_of(document);
  draft.document = as_sent.dump();
  draft.facts = members({{"shots", plan.shots.size()}, {"clear", json_of(plan.clear)}});
}

std::optional<std::string> id_or_null(const Keys& keys, std::string_view key) {
  const auto field = keys.optional(key);
  if (!field || field->is_null()) return std::nullopt;
  return field->name();
}

void add_result(Draft& draft, const Field& document, const nlohmann::json& as_sent) {
  const Keys keys(document, {"plan", "plan_revision", "shot", "purpose", "potted", "actual",
                             "after", "next_plan", "note"});
  static_cast<void>(keys.required("plan"));
  draft.plan = id_or_null(keys, "plan");
  const Field revision = keys.required("plan_revision");
  if (!revision.is_null()) static_cast<void>(revision.whole(1'000'000'000));
  const Field shot = keys.required("shot");
  constexpr std::uint64_t most_shots = 32;
  const std::uint64_t number = shot.whole(most_shots);
  if (number == 0) refuse(out_of_range(shot.where(), 0, "from 1 to 32"));
  const auto purpose = purposes[keys.required("purpose").choice(purposes)];
  const Field potted = keys.required("potted");
  const ordered_json went = potted.is_null() ? ordered_json(nullptr) : ordered_json(potted.truth());
  const Field actual = keys.required("actual");
  if (!actual.is_null()) static_cast<void>(bare_layout_of(actual));
  const Field after = keys.required("after");
  if (!after.is_null()) {
    if (!after.is_object()) after.refuse_kind("a comparison, or null");
    expect_format(after, after_format);
  }
  static_cast<void>(keys.required("next_plan"));
  static_cast<void>(id_or_null(keys, "next_plan"));
  static_cast<void>(keys.required("note").text(most_note_bytes));
  draft.document = as_sent.dump();
  draft.facts = members({{"shot", number}, {"purpose", purpose}, {"potted", went}});
}

/// Reads `document`, which is `as_sent`, into the draft.
void add_document(Draft& draft, const Field& document, const nlohmann::json& as_sent) {
  switch (draft.kind) {
    case LibraryKind::table:
      draft.document = json_of(table_of(document)).dump();
      break;
    case LibraryKind::player:
      draft.document = json_of(player_of(document)).dump();
      break;
    case LibraryKind::layout:
      add_layout(draft, document);
      break;
    case LibraryKind::plan:
      add_plan(draft, document, as_sent);
      break;
    case LibraryKind::result:
      add_result(draft, document, as_sent);
      break;
    case LibraryKind::words:
      draft.document = json_of(teacher_words_of(document)).dump();
      break;
  }
}

/// Like read_document(), for readers that also want the JSON itself.
template <std::invocable<const Field&, const nlohmann::json&> Read>
std::expected<Draft, InputError> read_with_json(std::string_view body, const Read& read) {
  const auto document = parse_json(body, request);
  if (!document) return std::unexpected(document.error());
  try {
    return read(Field(*document, {.file = std::string(request), .place = ""}), *document);
  } catch (Refused& refused) {
    return std::unexpected(std::move(refused.error));
  }
}

struct Importable {
  std::string_view format;
  LibraryKind kind;
  std::string_view name;
};
constexpr std::array importables{Importable{layout_format, LibraryKind::layout, "Imported layout"},
                                 Importable{table_format, LibraryKind::table, "Imported table"},
                                 Importable{player_format, LibraryKind::player, "Imported player"},
                                 Importable{plan_format, LibraryKind::plan, "Imported plan"}};

}  // namespace

std::expected<Draft, InputError> read_draft(LibraryKind kind, std::string_view body) {
  return read_with_json(body, [&](const Field& field, const nlohmann::json& sent) {
    const Keys keys = kind == LibraryKind::plan
                          ? Keys(field, {"name", "document", "layout", "parent"})
                          : Keys(field, {"name", "document"});
    Draft draft{.kind = kind, .name = keys.required("name").text(most_name_bytes)};
    add_document(draft, keys.required("document"), sent["document"]);
    if (kind == LibraryKind::plan) {
      draft.layout = id_or_null(keys, "layout");
      draft.parent = id_or_null(keys, "parent");
    }
    return draft;
  });
}

std::expected<Draft, InputError> read_import(std::string_view body, std::string_view name) {
  return read_with_json(body, [&](const Field& field, const nlohmann::json& sent) {
    constexpr std::array<std::string_view, importables.size()> formats{layout_format, table_format,
                                                                       player_format, plan_format};
    if (!field.is_object()) field.refuse_kind("a file of this program");
    const auto format = sent.find("format");
    if (format == sent.end()) refuse(missing_format(field.where(), layout_format));
    const std::size_t chosen =
        Field(*format, {.file = field.where().file, .place = "/format"}).choice(formats);
    Draft draft{.kind = importables[chosen].kind,
                .name = std::string(name.empty() ? importables[chosen].name : name)};
    if (draft.name.size() > most_name_bytes) {
      refuse(long_text({.file = field.where().file, .place = "?name"}, most_name_bytes));
    }
    add_document(draft, field, sent);
    return draft;
  });
}

std::string entry_text(LibraryKind kind, const EntryParts& entry) {
  const auto string_or_null = [](const std::optional<std::string>& text) {
    return text ? json_string(*text) : std::string("null");
  };
  JsonObject json;
  json.add_words("id", entry.id)
      .add_number("revision", entry.revision)
      .add_words("name", entry.name)
      .add_words("created", entry.created)
      .add_words("changed", entry.changed);
  if (kind == LibraryKind::plan) {
    json.add("layout", string_or_null(entry.layout)).add("parent", string_or_null(entry.parent));
  }
  if (kind == LibraryKind::result) json.add("plan", string_or_null(entry.plan));
  if (!entry.facts.empty()) json.add_members(entry.facts);
  if (!entry.document.empty()) json.add("document", entry.document);
  return json.text();
}

std::string file_text(std::string_view document) {
  return print_json(ordered_json::parse(document));
}

bool is_id(std::string_view text) {
  constexpr std::size_t most = 40;
  const auto allowed = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !text.empty() && text.size() <= most && std::ranges::all_of(text, allowed);
}

}  // namespace ahead::formats
