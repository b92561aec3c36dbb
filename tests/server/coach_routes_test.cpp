#include <gtest/gtest.h>

#include "coach/plan/effort.h"
#include "tests/server/openapi.h"
#include "tests/server/running_server.h"

// What the page asks while the hand moves, and what takes longer.
namespace ahead::test {
namespace {

using nlohmann::json;

json question(const json& more = {}) {
  json asked{{"layout", example("evening-class.json")}, {"player", "club"}};
  if (!more.is_null()) asked.update(more);
  return asked;
}

const json straight_in{{"ball", "red-6"}, {"pocket", "bottom-left"}};
const json stun{{"side", 0}, {"height", -0.1}, {"cue_speed", 1.35}};

TEST(ALiveShot, AnswersEveryWayOfAsking) {
  const RunningServer server;
  const auto shot = [&](const json& more) {
    const Answer answer = server.ask("POST", "/api/shot", question(more).dump());
    EXPECT_EQ(answer.status, 200) << answer.body;
    return answer.json();
  };
  const json aimed = shot({{"call", straight_in}, {"touch", stun}, {"face", true}});
  EXPECT_EQ(aimed["no_pot"], nullptr);
  EXPECT_EQ(aimed["pot"]["trials"], 48);
  EXPECT_GT(aimed["face"].size(), 100U);
  EXPECT_EQ(aimed["moves"]["balls"][1]["pocket"], "bottom-left");
  EXPECT_EQ(aimed["after"]["balls"].size(), 12U);
  EXPECT_FALSE(aimed["contours"]["most"].empty());

  const json given = shot({{"call", straight_in}, {"strike", aimed["strike"]}});
  EXPECT_EQ(given["moves"], aimed["moves"]);
  EXPECT_EQ(given["pot"], aimed["pot"]);
  EXPECT_EQ(given["chance_first_order"], aimed["chance_first_order"]);

  EXPECT_EQ(shot({{"call", straight_in}})["no_pot"], nullptr);
  EXPECT_EQ(shot({{"strike", aimed["strike"]}, {"tries", 0}})["pot"], nullptr);
  EXPECT_EQ(shot({{"call", {{"ball", "yellow-1"}, {"pocket", "middle-right"}}}})["no_pot"]["why"],
            "not-on");
  const json away = shot({{"call", {{"ball", "red-6"}, {"pocket", "top-right"}}}});
  EXPECT_NE(away["no_pot"], nullptr);
}

TEST(ALiveShot, IsTheSameWhetherItsGateWasKnownOrNot) {
  const RunningServer fresh;
  const RunningServer used;
  const std::string asked = question({{"call", straight_in}, {"touch", stun}}).dump();
  json elsewhere = question({{"call", straight_in}, {"touch", stun}});
  elsewhere["layout"]["balls"][0]["at"] = {460, 640};
  used.ask("POST", "/api/shot", elsewhere.dump());
  EXPECT_EQ(used.ask("POST", "/api/shot", asked).body, fresh.ask("POST", "/api/shot", asked).body);
}

TEST(AnObjectBallThatMoved, HasAnotherGate) {
  const RunningServer server;
  json asked = question({{"call", straight_in}, {"touch", stun}, {"tries", 0}});
  const json before = server.ask("POST", "/api/shot", asked.dump()).json();
  asked["layout"]["balls"][6]["at"] = {260, 260};
  const json after = server.ask("POST", "/api/shot", asked.dump()).json();
  EXPECT_NE(before["gate_deg"], after["gate_deg"]);
}

TEST(AFaultyQuestion, IsToldWhereAndHowToMendIt) {
  const RunningServer server;
  const auto place = [&](const json& more) {
    const Answer answer = server.ask("POST", "/api/shot", question(more).dump());
    EXPECT_EQ(answer.status, 422);
    return answer.json()["place"].get<std::string>();
  };
  EXPECT_EQ(place({{"call", {{"ball", "red-9"}, {"pocket", "bottom-left"}}}}), "/call/ball");
  EXPECT_EQ(
      place({{"call", straight_in}, {"touch", {{"side", 0.9}, {"height", 0}, {"cue_speed", 1}}}}),
      "/touch");
  EXPECT_EQ(place({{"touch", stun}}), "");
  EXPECT_EQ(place({{"call", straight_in}, {"tries", 100000}}), "/tries");
  EXPECT_EQ(place({{"player", "nobody"}, {"call", straight_in}}), "/player");
  json overlapping = question({{"call", straight_in}});
  overlapping["layout"]["balls"][1]["at"] = overlapping["layout"]["balls"][0]["at"];
  EXPECT_EQ(server.ask("POST", "/api/shot", overlapping.dump()).json()["place"],
            "/layout/balls/1/at");
}

TEST(TheCoach, SearchesLeavesOfEveryKind) {
  const RunningServer server;
  const std::vector<json> wanted{
      {{"circle", {{"at", {300, 900}}, {"radius_mm", 200}}}},
      {{"region", {{"outline", {{200, 700}, {500, 700}, {500, 1100}, {200, 1100}}}}}},
      {{"next", {{"ball", "red-2"}, {"pocket", "bottom-right"}}}}};
  for (const json& one : wanted) {
    const Answer quick =
        server.ask("POST", "/api/leaves",
                   question({{"call", straight_in}, {"wanted", one}, {"care", "quick"}}).dump());
    ASSERT_EQ(quick.status, 200) << quick.body;
    EXPECT_GT(quick.json()["strikes"].size(), 0U);
  }
  const Answer full = server.ask("POST", "/api/leaves",
                                 question({{"call", straight_in}, {"wanted", wanted[0]}}).dump());
  ASSERT_GT(full.json()["strikes"].size(), 0U);
  EXPECT_EQ(full.json()["strikes"][0]["leave"]["misses"].size(), 4U);
  const Answer surest = server.ask("POST", "/api/leaves",
                                   question({{"call", straight_in}, {"wanted", nullptr}}).dump());
  EXPECT_GT(surest.json()["strikes"].size(), 3U);
  EXPECT_EQ(surest.json()["strikes"][0]["leave"], nullptr);
}

TEST(TheCoach, ListsThePotsThatGo) {
  const RunningServer server;
  const json pots = server.ask("POST", "/api/pots", question().dump()).json()["pots"];
  ASSERT_GT(pots.size(), 1U);
  for (std::size_t i = 0; i + 1 < pots.size(); ++i) {
    EXPECT_GE(pots[i]["chance_first_order"], pots[i + 1]["chance_first_order"]);
  }
}

TEST(TheCoach, ReadsATable) {
  const RunningServer server;
  const Answer reading = server.ask("POST", "/api/read", question().dump());
  ASSERT_EQ(reading.status, 200);
  EXPECT_EQ(reading.json()["words"]["own"].size(), 7U);
  EXPECT_EQ(reading.json()["reading"]["format"], "three-ahead.reading/1");
}

TEST(TheCoach, SimulatesAndViews) {
  const RunningServer server;
  const json strike{
      {"aim_deg", 90}, {"elevation_deg", 0}, {"side", 0}, {"height", 0}, {"cue_speed", 1}};
  EXPECT_EQ(server
                .ask("POST", "/api/simulate",
                     json{{"layout", example("evening-class.json")}, {"strike", strike}}.dump())
                .status,
            200);
  const Answer view = server.ask("POST", "/api/view", example("after/plan.json").dump());
  ASSERT_EQ(view.status, 200);
  EXPECT_EQ(view.json()["shots"].size(), example("after/plan.json")["shots"].size());
}

/// Names and data of the events in a body.
std::vector<std::pair<std::string, json>> events_in(const std::string& body) {
  std::vector<std::pair<std::string, json>> events;
  constexpr std::string_view name_mark = "event: ";
  constexpr std::string_view data_mark = "data: ";
  for (std::size_t at = body.find(name_mark); at != std::string::npos;
       at = body.find(name_mark, at)) {
    at += name_mark.size();
    const std::string name = body.substr(at, body.find('\n', at) - at);
    at = body.find(data_mark, at) + data_mark.size();
    events.emplace_back(name, json::parse(body.substr(at, body.find('\n', at) - at)));
  }
  return events;
}

/// Two balls: a plan of them takes no time.
json short_layout() {
  json layout = example("evening-class.json");
  json balls = json::array();
  for (const json& ball : layout["balls"]) {
    if (ball["id"] == "cue" || ball["id"] == "red-6") balls.push_back(ball);
  }
  balls.push_back({{"id", "black"}, {"at", {457, 1372}}});
  layout["balls"] = balls;
  return layout;
}

TEST(APlan, IsStreamedWithProgressAndEndsWithIt) {
  const RunningServer server;
  const Answer answer = server.ask("POST", "/api/plan",
                                   json{{"layout", short_layout()}, {"player", "county"}}.dump());
  EXPECT_EQ(answer.headers.at("content-type"), "text/event-stream");
  const auto events = events_in(answer.body);
  ASSERT_GT(events.size(), 2U);
  EXPECT_EQ(component_faults("Progress", events.front().second), "");
  EXPECT_EQ(events.back().first, "done");
  EXPECT_EQ(component_faults("PlanDone", events.back().second), "");
  EXPECT_EQ(events.back().second["view"]["shots"].size(), 2U);
  for (const auto& [name, data] : events) {
    if (name == "best") {
      EXPECT_EQ(component_faults("PlanBest", data), "");
    }
  }
}

TEST(WhatCameOfAShot, IsStreamedWithTheProbableStrike) {
  const RunningServer server;
  const Answer answer = server.ask("POST", "/api/after",
                                   json{{"plan", example("after/plan.json")},
                                        {"shot", 1},
                                        {"actual", example("after/actual.json")}}
                                       .dump());
  const auto events = events_in(answer.body);
  ASSERT_FALSE(events.empty());
  EXPECT_EQ(events.back().first, "done");
  EXPECT_EQ(component_faults("AfterDone", events.back().second), "");
  EXPECT_TRUE(events.back().second["explained"]);
}

TEST(APlan, BeginsWithTheShotThatItIsGiven) {
  const RunningServer server;
  const json layout = short_layout();
  const json call{{"ball", "red-6"}, {"pocket", "bottom-left"}};
  const json strike = server
                          .ask("POST", "/api/shot",
                               json{{"layout", layout},
                                    {"player", "county"},
                                    {"call", call},
                                    {"touch", {{"side", 0.1}, {"height", -0.2}, {"cue_speed", 2}}}}
                                   .dump())
                          .json()["strike"];
  json asked{
      {"layout", layout}, {"player", "county"}, {"first", {{"call", call}, {"strike", strike}}}};
  const json done = events_in(server.ask("POST", "/api/plan", asked.dump()).body).back().second;
  EXPECT_EQ(component_faults("PlanDone", done), "");
  const json plan = done["view"]["plan"];
  EXPECT_EQ(plan["shots"][0]["strike"]["cue_speed"], 2);
  EXPECT_EQ(plan["chance"]["trials"], coach::budget_of(coach::Effort::normal).first_runs);
  EXPECT_NE(plan["shots"][0]["runner_up"], nullptr);

  asked["first"]["call"]["ball"] = "red-9";
  EXPECT_EQ(server.ask("POST", "/api/plan", asked.dump()).json()["place"], "/first/call/ball");
}

TEST(AComparison, AfterTheLastOfAColourAnswersAPlanThatTheLibraryTakes) {
  const RunningServer server;
  json layout = short_layout();
  const json plan =
      events_in(
          server.ask("POST", "/api/plan", json{{"layout", layout}, {"player", "county"}}.dump())
              .body)
          .back()
          .second["view"]["plan"];
  // The red has gone as meant; the cue ball lies where it was meant to stop.
  json actual = layout;
  actual["to_play"] = "black";
  actual["balls"] = plan["shots"][1]["balls_before"];
  const json done = events_in(server
                                  .ask("POST", "/api/after",
                                       json{{"plan", plan}, {"shot", 1}, {"actual", actual}}.dump())
                                  .body)
                        .back()
                        .second;
  ASSERT_NE(done["view"], nullptr);
  EXPECT_EQ(done["view"]["plan"]["layout"]["to_play"], "black");
  EXPECT_EQ(done["view"]["shots"][0]["before"]["to_play"], "black");
  const json draft{{"name", "From here"},
                   {"document", done["view"]["plan"]},
                   {"layout", nullptr},
                   {"parent", nullptr}};
  EXPECT_EQ(
      server.ask("PUT", "/api/plans/from-here", draft.dump(), {{"If-None-Match", "*"}}).status,
      201);
}

TEST(Plans, AreSoManyAtOnceAndStopWithTheirClients) {
  RunningServer server({.plans = 1});
  const std::string body = question({{"player", "club"}}).dump();
  {
    const RawConnection client(server.port());
    client.send("POST /api/plan HTTP/1.1\r\nHost: 127.0.0.1:" + std::to_string(server.port()) +
                "\r\nContent-Type: application/json\r\nContent-Length: " +
                std::to_string(body.size()) + "\r\n\r\n" + body);
    client.until("event: progress");
    EXPECT_EQ(server.ask("POST", "/api/plan", body).problem(), "busy");
  }
  // The slot comes back when the work has really ended; the test hangs if it never does.
  while (!server.workbench().plans.take()) std::this_thread::yield();
}

}  // namespace
}  // namespace ahead::test
