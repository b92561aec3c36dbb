#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "capture/capture.h"
#include "capture/draw/shot_marks.h"
#include "capture/picture/decode.h"
#include "capture/picture/encode.h"
#include "capture/record.h"
#include "formats/workbench/base64.h"
#include "formats/workbench/capture_questions.h"
#include "formats/workbench/json_object.h"
#include "lesson/house_look.h"
#include "server/problems.h"
#include "server/workbench.h"

// A photograph that the page sends: what lies on the table, and drawing back onto it.
namespace ahead::server {
namespace {

Reply refused(const capture::Refusal& refusal) {
  return bad_input(formats::not_captured("the photograph", refusal.wrong, refusal.mend));
}

Reply capture_photograph(Workbench& workbench, const Request& request) {
  const auto question = formats::read_capture_question(request.body);
  if (!question) return bad_input(question.error());
  const Slots::Held slot = workbench.plans.take();
  if (!slot) return busy("other plans and photographs");
  const std::string& bytes = question->photograph;
  const auto picture =
      capture::decode_picture({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
  if (!picture) return refused(picture.error());
  std::vector<capture::SeenPoint> points;
  const auto corners = capture::nose_corners(question->table);
  for (std::size_t i = 0; i < question->corners.size(); ++i) {
    points.push_back({corners[i], question->corners[i], capture::marked_sigma_px});
  }
  const auto captured = capture::capture_photograph(*picture, question->table, points);
  if (!captured) return refused(captured.error());
  return json_reply(formats::write_capture(capture::record_of(*captured)));
}

Reply drawing(Workbench& workbench, const Request& request) {
  const auto question = formats::read_drawing_question(request.body);
  if (!question) return bad_input(question.error());
  const Slots::Held slot = workbench.plans.take();
  if (!slot) return busy("other plans and photographs");
  const coach::PlannedShot& shot = question->plan.shots[question->shot];
  const capture::Camera camera = capture::camera_of(question->camera);
  const capture::Overlay overlay =
      capture::shot_overlay(camera, shot, question->plan.layout, lesson::house_look());
  return json_reply(
      formats::JsonObject()
          .add_words("png", formats::base64_of(capture::png_of(overlay.colour, overlay.cover)))
          .add_words("cut", capture::cut_in_words(camera, shot))
          .text());
}

}  // namespace

std::span<const Route> capture_routes() {
  static constexpr std::array routes{Route{"POST", "/api/capture", capture_photograph},
                                     Route{"POST", "/api/capture/drawing", drawing}};
  return routes;
}

}  // namespace ahead::server
