#include "formats/workbench/capture_questions.h"

#include "engine/equipment/presets.h"
#include "formats/document.h"
#include "formats/units.h"
#include "formats/values.h"
#include "formats/workbench/base64.h"

namespace ahead::formats {
namespace {

constexpr std::string_view request = "request";
/// Generous: a page sends what it has made smaller.
constexpr std::size_t most_photograph_text = 4'000'000;
constexpr Range any_px{.least = -1e5, .most = 1e5, .unit = "px"};

engine::Table table_asked(const Field& field) {
  if (field.is_object()) return table_of(field);
  if (!field.is_text()) field.refuse_kind("a table's name or a whole table");
  const auto ids = engine::table_preset_ids();
  return *engine::table_preset(ids[field.choice(ids)]);
}

engine::Vec2 pixel_of(const Field& field) {
  const auto items = field.items({.least = 2, .most = 2, .words = "two numbers"});
  return {items[0].number(any_px), items[1].number(any_px)};
}

engine::Vec3 three_of(const Field& field, const Range& range) {
  const auto items = field.items({.least = 3, .most = 3, .words = "three numbers"});
  return {items[0].number(range), items[1].number(range), items[2].number(range)};
}

CaptureQuestion capture_question_of(const Field& field) {
  const Keys keys(field, {"photograph", "table", "corners"});
  const Field photograph = keys.required("photograph");
  auto bytes = bytes_of_base64(photograph.text(most_photograph_text));
  if (!bytes) photograph.refuse_kind("a photograph's bytes as base64");
  CaptureQuestion question{.photograph = *std::move(bytes),
                           .table = table_asked(keys.required("table"))};
  if (const auto corners = keys.optional("corners")) {
    for (const Field& corner : corners->items({.least = 4, .most = 4, .words = "four corners"})) {
      question.corners.push_back(pixel_of(corner));
    }
  }
  return question;
}

CameraRecord camera_of(const Field& field) {
  const Keys keys(field, {"size_px", "focal_px", "k1", "at_mm", "right", "down", "forward"});
  constexpr Range side{.least = 16, .most = 4096, .unit = "px"};
  constexpr Range focal{.least = 1, .most = 1e6, .unit = "px"};
  constexpr Range bend{.least = -2, .most = 2, .unit = ""};
  constexpr Range place{.least = -1e6, .most = 1e6, .unit = "mm", .decimals = 3};
  constexpr Range part{.least = -1.001, .most = 1.001, .unit = "", .decimals = 9};
  const auto size =
      keys.required("size_px").items({.least = 2, .most = 2, .words = "width and height"});
  return {.width_px = size[0].number(side),
          .height_px = size[1].number(side),
          .focal_px = keys.required("focal_px").number(focal),
          .k1 = keys.required("k1").number(bend),
          .at = m_of_mm * three_of(keys.required("at_mm"), place),
          .axes = {unit(three_of(keys.required("right"), part)),
                   unit(three_of(keys.required("down"), part)),
                   unit(three_of(keys.required("forward"), part))}};
}

DrawingQuestion drawing_question_of(const Field& field) {
  const Keys keys(field, {"camera", "plan", "shot"});
  DrawingQuestion question{.camera = camera_of(keys.required("camera")),
                           .plan = plan_of(keys.required("plan"))};
  const Field shot = keys.required("shot");
  question.shot = shot.whole(1000);
  if (question.shot >= question.plan.shots.size()) {
    refuse(out_of_range(shot.where(), static_cast<double>(question.shot),
                        "that counts a shot of the plan, from 0"));
  }
  return question;
}

}  // namespace

Asked<CaptureQuestion> read_capture_question(std::string_view body) {
  return read_document<CaptureQuestion>(body, request, capture_question_of);
}

Asked<DrawingQuestion> read_drawing_question(std::string_view body) {
  return read_document<DrawingQuestion>(body, request, drawing_question_of);
}

}  // namespace ahead::formats
