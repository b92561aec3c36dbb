#include "formats/schema.h"

#include <filesystem>
#include <map>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "coach/player/player.h"
#include "engine/equipment/presets.h"
#include "formats/after.h"
#include "formats/footage.h"
#include "formats/layout.h"
#include "formats/manifest.h"
#include "formats/plan.h"
#include "formats/player.h"
#include "formats/reading.h"
#include "formats/shot.h"
#include "formats/strike.h"
#include "formats/table.h"
#include "formats/teacher_words.h"
#include "formats/trace.h"
#include "formats/trial.h"
#include "tests/bad_input/cases.h"
#include "tests/formats/played.h"
#include "tests/support/text_of.h"

// The schemas and the code say the same about every file at hand.
namespace ahead::formats {
namespace {

using nlohmann::json;
using Adapter = valijson::adapters::NlohmannJsonAdapter;

json schema_json(const std::string& name) {
  return json::parse(schema_text(name.substr(0, name.find('.'))).value());
}

/// Schemas refer to each other as "table.schema.json".
const valijson::Schema& schema(const std::string& name) {
  static std::map<std::string, std::unique_ptr<valijson::Schema>> known;
  auto& entry = known[name];
  if (!entry) {
    entry = std::make_unique<valijson::Schema>();
    const json text = schema_json(name);
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    parser.populateSchema(
        Adapter(text), *entry, [](const std::string& uri) { return new json(schema_json(uri)); },
        [](const json* document) { delete document; });
  }
  return *entry;
}

/// What the schema says against `document`, empty when it passes.
std::string faults(const std::string& name, const json& document) {
  valijson::Validator validator(valijson::Validator::kStrongTypes);
  valijson::ValidationResults results;
  const Adapter target(document);
  if (validator.validate(schema(name), target, &results)) return "";
  std::string text = "refused";
  for (const auto& error : results) {
    text += "\n ";
    for (const std::string& step : error.context) text += step;
    text += " " + error.description;
  }
  return text;
}

std::string faults_of_text(const std::string& name, const std::string& text) {
  return faults(name, json::parse(text));
}

TEST(ASchema, IsThereForEveryKindOfFile) {
  const auto names = schema_names();
  EXPECT_EQ(std::vector<std::string_view>(names.begin(), names.end()),
            (std::vector<std::string_view>{"after", "capture", "footage", "layout", "lesson",
                                           "plan", "player", "reading", "shot", "strike", "table",
                                           "trace", "trial", "words"}));
  EXPECT_EQ(schema_text("lay"), std::nullopt);
}

/// Every property says what it is; objects are closed.
void expect_explained(const json& node, const std::string& place) {
  if (node.is_array()) {
    for (const json& entry : node) expect_explained(entry, place + "/[]");
  }
  if (!node.is_object()) return;
  if (node.contains("properties")) {
    EXPECT_EQ(node.value("additionalProperties", true), false) << place;
    for (const auto& [key, property] : node["properties"].items()) {
      const bool explained = property.contains("$ref") ||
                             (property.contains("title") && property.contains("description"));
      EXPECT_TRUE(explained) << place << '/' << key;
    }
  }
  for (const auto& [key, child] : node.items()) expect_explained(child, place + '/' + key);
}

TEST(ASchema, ExplainsEveryKey) {
  for (const std::string_view name : schema_names()) {
    expect_explained(schema_json(std::string(name)), std::string(name));
  }
}

TEST(TheSchemas, PassWhatTheProgramWrites) {
  const coach::Layout layout = test::evening();
  const std::vector<std::string> words{"One.", "Two."};
  EXPECT_EQ(faults_of_text("layout", write_layout(layout)), "");
  EXPECT_EQ(faults_of_text("strike", write_strike(test::first_strike())), "");
  EXPECT_EQ(faults_of_text("shot", write_shot(test::played(layout, test::first_strike()), layout)),
            "");
  const Trace trace{.layout = layout, .strike = test::first_strike()};
  EXPECT_EQ(faults_of_text("trace", write_trace(trace, test::played(layout, trace.strike))), "");
  EXPECT_EQ(faults_of_text("plan", write_plan(test::small_plan())), "");
  EXPECT_EQ(faults_of_text("plan", write_plan(test::small_plan(), words)), "");
  EXPECT_EQ(faults_of_text("trial", write_trial(test::small_trial())), "");
  EXPECT_EQ(faults_of_text("reading", write_reading(coach::read_table(
                                          layout, *coach::player_preset("club"), 1))),
            "");
}

TEST(TheSchemas, PassWhatALessonWrites) {
  const std::map<std::string, std::string> facts{{"odds", "about 9 in 10"}};
  const TeacherWords words{
      .sentences = {{.key = "red-2.chance", .text = "It goes.", .facts = facts},
                    {.key = "red-2.leave", .text = "x", .mine = "Mine.", .mine_for = facts}},
      .unused = {{.key = "red-9.task", .text = "x", .mine = "Mine."}}};
  EXPECT_EQ(faults_of_text("words", write_teacher_words(words)), "");
  const Sealed sealed{.name = "plan.json", .sha256 = std::string(64, 'a')};
  const Manifest manifest{.program = "ahead",
                          .plan = sealed,
                          .table = sealed,
                          .player = sealed,
                          .settings = {{"for", "pupil"}},
                          .libraries = {{"cairo", "1.16.0"}},
                          .fonts = {sealed},
                          .files = {{"words.txt", 10, sealed.sha256}}};
  EXPECT_EQ(faults_of_text("lesson", write_manifest(manifest)), "");
  Manifest cut = manifest;
  cut.files[0].sha256.pop_back();
  EXPECT_NE(faults_of_text("lesson", write_manifest(cut)), "");
}

TEST(TheSchemas, PassWhatAPhotographAndAClipGave) {
  const CaptureRecord capture{
      .layout = test::evening(),
      .balls = {{.id = "cue",
                 .at = {0.4, 0.6},
                 .sigma_m = 1e-3,
                 .covariance_m2 = {1e-6, -2e-7, 2e-6},
                 .confidence = 0.9,
                 .pixel = {640, 480}}},
      .doubtful = {"cue"},
      .corners = {{100, 900}, {1100, 900}, {800, 200}, {400, 200}},
      .camera = {.width_px = 1280,
                 .height_px = 960,
                 .focal_px = 1000,
                 .k1 = -0.05,
                 .at = {0.5, -1, 1.5},
                 .axes = {engine::Vec3{1, 0, 0}, engine::Vec3{0, 0, -1}, engine::Vec3{0, 1, 0}}},
      .residual_px = 0.4};
  EXPECT_EQ(faults_of_text("capture", write_capture(capture)), "");
  const FootageRecord footage{
      .stills = {{.from_s = 0, .to_s = 1, .capture = capture}},
      .shots = {{.from_s = 1,
                 .to_s = 3.5,
                 .tracks = {{.colour = coach::Colour::cue,
                             .points = {{.t_s = 1.04, .at = {0.4, 0.7}, .sigma_m = 2e-3}}}}}}};
  EXPECT_EQ(faults_of_text("footage", write_footage(footage)), "");
}

TEST(TheSchemas, PassWhatCameOfAShot) {
  const coach::Plan plan = test::small_plan();
  coach::Aftermath after{.actual = plan.layout,
                         .player = plan.player,
                         .ends = {{.id = "cue", .meant = {{0.4, 0.6}}, .found = {{0.5, 0.7}}},
                                  {.id = "red-1", .meant = {}, .found = {}}},
                         .potted = true};
  EXPECT_EQ(faults_of_text("after", write_after(plan, after)), "");

  after.leave = coach::LeaveMiss{.along_m = 0.1, .across_m = -0.02};
  after.strike.explained = 1;
  after.strike.tradeoffs = {{.one = coach::Part::pace, .other = coach::Part::tip_height}};
  after.strike.untold = {coach::Part::elevation};
  after.strike.strays = {1};
  after.next = coach::FollowingPot{.id = "black", .pocket = 2, .meant = 0.8, .now = plan.clear};
  after.plan = plan;
  EXPECT_EQ(faults_of_text("after", write_after(plan, after)), "");
}

TEST(TheSchemas, PassEveryPreset) {
  for (const std::string_view id : engine::table_preset_ids()) {
    EXPECT_EQ(faults_of_text("table", write_table(engine::table_preset(id).value())), "") << id;
  }
  for (const std::string_view id : coach::player_preset_ids()) {
    EXPECT_EQ(faults_of_text("player", write_player(coach::player_preset(id).value())), "") << id;
  }
}

TEST(TheSchemas, PassALayoutWithATableOfItsOwn) {
  coach::Layout layout = test::evening();
  layout.table.cloth.rolling = 0.02;
  EXPECT_EQ(faults_of_text("layout", write_layout(layout)), "");
}

TEST(TheSchemas, PassEveryExample) {
  const std::filesystem::path folder = std::filesystem::path(AHEAD_SOURCE_DIR) / "examples";
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.path().extension() != ".json") continue;
    const json document = json::parse(test::text_of(entry.path()));
    const std::string format = document.value("format", "");
    const std::string kind =
        format.substr(format.find('.') + 1, format.find('/') - format.find('.') - 1);
    ASSERT_TRUE(schema_text(kind).has_value()) << entry.path();
    EXPECT_EQ(faults(kind, document), "") << entry.path();
    if (kind == "shot" || kind == "after") continue;
    EXPECT_EQ(test::refusal(kind, document.dump()), std::nullopt) << entry.path();
  }
}

/// What a schema cannot say: it compares two places of a file, or computes.
const std::set<std::string> beyond_schemas{
    "layout-american-ball", "layout-american-rules", "layout-duplicate-ball",
    "layout-english-rules-american-play", "layout-english-yellow-without-number",
    "layout-in-cushion", "layout-in-jaw", "layout-in-pocket", "layout-no-balls",
    "layout-no-black-to-play", "layout-no-cue-ball", "layout-nothing-to-play", "layout-off-bed",
    "layout-off-bed-above", "layout-overlap", "layout-overlap-cue-ball",
    "layout-overlap-cue-ball-last", "layout-snooker-red-to-play", "layout-snooker-yellow-by-number",
    "layout-two-cue-balls", "layout-unknown-table", "layout-with-bad-table", "plan-ball-not-there",
    "plan-balls-overlap", "plan-no-runner-up-but-why", "plan-strike-miscue", "plan-unknown-colour",
    "strike-miscue", "strike-miscue-by-both", "table-arc-without-length", "table-density",
    "table-density-of-cue-ball", "table-nap-too-strong", "table-nose-too-high",
    "table-nose-too-low", "table-pocket-twice", "table-rail-without-length", "table-sides-swapped",
    "table-too-narrow", "trace-overlap",
    // Two entries of one name are one to a parser that does not look.
    "layout-duplicate-key", "layout-duplicate-key-in-ball"};

TEST(TheSchemas, RefuseWhatTheReadersRefuse) {
  int compared = 0;
  for (const test::BadInput& input : test::bad_inputs()) {
    const json document = json::parse(input.text, nullptr, false);
    if (document.is_discarded()) continue;  // no JSON
    EXPECT_EQ(faults(input.kind, document).empty(), beyond_schemas.contains(input.name))
        << input.name;
    ++compared;
  }
  EXPECT_GT(compared, 80);
}

/// Every number of `document` with bounds in its schema, pushed just beyond each bound, must be
/// refused by the reader as well, and the bound itself must be taken by neither or both.
void compare_bounds(const std::string& kind, const json& document) {
  const json flat = document.flatten();
  for (const auto& [place, value] : flat.items()) {
    if (!value.is_number()) continue;
    for (const double number :
         {-1e7, -1001.0, -721.0, -361.0, -10.5, -1.5,  -0.5,  0.0,    0.3,     0.7, 1.0,
          1.5,  12.0,    16.0,   90.5,   150.5, 320.0, 720.5, 1500.0, 10001.0, 1e7}) {
      json changed = flat;
      changed[place] = number;
      const json candidate = changed.unflatten();
      const bool schema_takes = faults(kind, candidate).empty();
      const bool reader_takes = !test::refusal(kind, candidate.dump()).has_value();
      EXPECT_TRUE(schema_takes || !reader_takes)
          << kind << place << " = " << number << ": the reader takes what the schema refuses";
      if (schema_takes && !reader_takes) {
        const auto error = test::refusal(kind, candidate.dump()).value();
        EXPECT_EQ(error.wrong.find("is out of range"), std::string::npos)
            << kind << place << " = " << number << ": the schema takes what is out of range";
      }
    }
  }
}

TEST(TheSchemas, HaveTheBoundsOfTheReaders) {
  compare_bounds("strike", json::parse(write_strike(test::first_strike())));
  compare_bounds("player", json::parse(write_player(coach::player_preset("club").value())));
  compare_bounds("layout", json::parse(test::evening_text()));
  engine::Table table = engine::table_preset("english-7ft").value();
  table.rails = {table.rails[0], table.rails[6]};
  compare_bounds("table", json::parse(write_table(table)));
}

}  // namespace
}  // namespace ahead::formats
