#include <algorithm>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/server/openapi.h"
#include "tests/server/running_server.h"

// The lesson as the page asks for it.
namespace ahead::test {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

json question(const json& settings = json::object()) {
  return {{"plan", example("after/plan.json")}, {"settings", settings}};
}

json sentence_of(const json& words, const std::string& key) {
  for (const json& each : words["sentences"]) {
    if (each["key"] == key) return each;
  }
  return {};
}

TEST(TheWordsOfALesson, KeepTheTeachersAndFlagThemWhenTheirFactsChange) {
  const RunningServer server;
  json asked = question();
  const auto answered = [&] {
    const Answer answer = server.ask("POST", "/api/lesson/words", asked.dump());
    EXPECT_EQ(answer.status, 200) << answer.body;
    return answer.json();
  };
  json told = answered();
  EXPECT_EQ(told["groups"].size(), 1 + asked["plan"]["shots"].size());
  EXPECT_EQ(told["groups"][1]["heading"], "Red 2 to the bottom-right");
  for (json& each : told["words"]["sentences"]) {
    if (each["key"] == "red-2.chance") each["mine"] = "You will make this one.";
  }
  asked["words"] = told["words"];
  EXPECT_EQ(answered()["flagged"].size(), 0U);

  asked["plan"]["shots"][0]["pot"]["value"] = 0.42;
  told = answered();

  EXPECT_THAT(told["flagged"], ElementsAre("red-2.chance"));
  const json flagged = sentence_of(told["words"], "red-2.chance");
  EXPECT_EQ(flagged["mine"], "You will make this one.");
  EXPECT_THAT(flagged["text"].get<std::string>(), HasSubstr("4 in 10"));
  EXPECT_GT(flagged["mine_for"].size(), 0U);
}

TEST(TheWordsOfALesson, AreKeptInTheLibrary) {
  const RunningServer server;
  const json words = server.ask("POST", "/api/lesson/words", question().dump()).json()["words"];
  const std::string draft = json{{"name", "Evening class"}, {"document", words}}.dump();
  EXPECT_EQ(server.ask("GET", "/api/words/example-evening-class").status, 404);
  const Answer made =
      server.ask("PUT", "/api/words/example-evening-class", draft, {{"If-None-Match", "*"}});
  EXPECT_EQ(made.status, 201) << made.body;
  EXPECT_EQ(server.ask("GET", "/api/words/example-evening-class").json()["document"], words);
  EXPECT_EQ(server.ask("GET", "/api/words").json()["words"].size(), 1U);
  EXPECT_EQ(
      server
          .ask("PUT", "/api/words/x", R"({"name": "x", "document": {}})", {{"If-None-Match", "*"}})
          .problem(),
      "bad-input");
}

TEST(APictureOfALesson, ComesInTheLayersAskedFor) {
  const RunningServer server;
  json asked = question({{"layers", {"construction"}}});
  asked["picture"] = "shot-01";
  const std::string drawn = server.ask("POST", "/api/lesson/picture", asked.dump()).body;
  EXPECT_THAT(drawn, HasSubstr("tangent line"));
  asked["settings"]["layers"] = json::array();
  EXPECT_EQ(server.ask("POST", "/api/lesson/picture", asked.dump()).body.find("tangent line"),
            std::string::npos);
  asked["picture"] = "shot-77";
  EXPECT_EQ(server.ask("POST", "/api/lesson/picture", asked.dump()).status, 404);
}

TEST(ALesson, IsMadeAndFetchedFileByFile) {
  const RunningServer server;
  const Answer answer = server.ask("POST", "/api/lesson",
                                   question({{"what", {"words", "sheet", "captions"}}}).dump());
  EXPECT_THAT(answer.body, HasSubstr("event: progress"));
  const auto at = answer.body.find("event: done\ndata: ");
  ASSERT_NE(at, std::string::npos) << answer.body;
  const std::string data = answer.body.substr(at + 18);
  const json done = json::parse(data.substr(0, data.find('\n')));
  EXPECT_EQ(component_faults("LessonDone", done), "");
  ASSERT_EQ(done["files"].size(), 8U);
  for (const json& file : done["files"]) {
    const Answer fetched = server.ask("GET", file["href"]);
    EXPECT_EQ(fetched.status, 200);
    EXPECT_EQ(fetched.body.size(), file["bytes"].get<std::size_t>()) << file["name"];
    EXPECT_THAT(fetched.headers.at("content-security-policy"), HasSubstr("sandbox"));
  }
  const std::string first = done["files"][0]["href"];
  const std::string folder = first.substr(0, first.rfind('/'));
  for (const char* other : {"/0", "/99", "/x", "/1x"}) {
    EXPECT_EQ(server.ask("GET", folder + other).status, 404);
  }
}

TEST(ALesson, SaysWhatIsWrongWithItsSettings) {
  const RunningServer server;
  const auto place = [&](const json& settings) {
    const Answer answer = server.ask("POST", "/api/lesson", question(settings).dump());
    EXPECT_EQ(answer.status, 422);
    return answer.json()["place"].get<std::string>();
  };
  EXPECT_EQ(place({{"what", {"film"}}}), "/settings/what/0");
  EXPECT_EQ(place({{"for", "nobody"}}), "/settings/for");
  EXPECT_EQ(place({{"png_width", 9000}}), "/settings/png_width");
  EXPECT_EQ(place({{"png_width", 9}}), "/settings/png_width");
  EXPECT_EQ(place({{"clip", 8}}), "/settings/clip");
}

TEST(ALesson, StopsWithItsClient) {
  RunningServer server({.plans = 1});
  const std::string body = question({{"what", {"animation"}}}).dump();
  {
    const RawConnection client(server.port());
    client.send("POST /api/lesson HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) +
                "\r\nContent-Type: application/json\r\nContent-Length: " +
                std::to_string(body.size()) + "\r\n\r\n" + body);
    client.until("event: progress");
  }
  // The slot comes back when the work has really ended; the test hangs if it never does.
  while (!server.workbench().plans.take()) std::this_thread::yield();
}

}  // namespace
}  // namespace ahead::test
