#include "server/problems.h"

#include <fmt/format.h>

#include "formats/workbench/problem.h"

namespace ahead::server {
namespace {

using formats::Problem;

Reply refusal(const Problem& problem) {
  Reply reply = json_reply(formats::problem_text(problem), problem.status);
  reply.type = "application/problem+json; charset=utf-8";
  if (problem.retry_after_s) {
    reply.headers.emplace_back("Retry-After", std::to_string(*problem.retry_after_s));
  }
  return reply;
}

/// The request's body is left where it is.
Reply closing(Reply reply) {
  reply.close = true;
  return reply;
}

}  // namespace

Reply bad_input(const formats::InputError& error) {
  return refusal({.status = 422,
                  .name = "bad-input",
                  .title = "The input does not fit",
                  .detail = error.wrong + "; " + error.mend + ".",
                  .input = error});
}

Reply not_found(std::string_view what) {
  return refusal({.status = 404,
                  .name = "not-found",
                  .title = "Not there",
                  .detail = fmt::format("There is no {} here; it may have been removed.", what)});
}

Reply wrong_method(std::string_view allowed) {
  Reply reply = refusal({.status = 405,
                         .name = "method",
                         .title = "Not this way",
                         .detail = fmt::format("This address takes {} only.", allowed)});
  reply.headers.emplace_back("Allow", std::string(allowed));
  return closing(std::move(reply));
}

Reply wrong_type() {
  return closing(refusal({.status = 415,
                          .name = "wrong-type",
                          .title = "Not JSON",
                          .detail = "Send the body as application/json."}));
}

Reply too_large(std::size_t most_bytes) {
  return closing(refusal({.status = 413,
                          .name = "too-large",
                          .title = "Too large",
                          .detail = fmt::format("The body is larger than {} kB; send less at once.",
                                                most_bytes / 1000)}));
}

Reply length_needed() {
  return closing(refusal({.status = 411,
                          .name = "too-large",
                          .title = "Length unknown",
                          .detail = "Say with Content-Length how long the body is."}));
}

Reply encoded_body() {
  return closing(refusal({.status = 415,
                          .name = "wrong-type",
                          .title = "Encoded body",
                          .detail = "Send the body as it is, neither compressed nor in chunks."}));
}

Reply condition_missing() {
  return refusal(
      {.status = 428,
       .name = "condition-missing",
       .title = "Which revision?",
       .detail = "Say with If-Match which revision you have seen, or with If-None-Match: * that "
                 "the entry is new."});
}

Reply bad_condition() {
  return refusal({.status = 400,
                  .name = "condition-missing",
                  .title = "Which revision?",
                  .detail = "If-Match takes one revision in quotes, such as \"3\"; If-None-Match "
                            "takes *."});
}

Reply stale(std::int64_t revision) {
  return refusal({.status = 412,
                  .name = "stale",
                  .title = "Changed elsewhere",
                  .detail = fmt::format("This was changed elsewhere and is at revision {} now; "
                                        "nothing was overwritten. Look at it before you go on.",
                                        revision),
                  .revision = revision});
}

Reply taken(std::string_view id) {
  return refusal(
      {.status = 412,
       .name = "exists",
       .title = "Taken",
       .detail = fmt::format("There is an entry with the id {} already; choose another.", id)});
}

Reply store_fault(const store::Fault& fault) {
  switch (fault.kind) {
    case store::FaultKind::full:
      return refusal({.status = 507,
                      .name = "disk-full",
                      .title = "The disk is full",
                      .detail = "The disk is full or refuses to write; this change was not saved, "
                                "what was saved before is untouched. Make room and try again."});
    case store::FaultKind::reference:
      return refusal({.status = 422,
                      .name = "bad-input",
                      .title = "It leads nowhere",
                      .detail = "The entry names a layout or a plan that is not in the library; "
                                "save that first, or leave it out."});
    default:
      return refusal({.status = 500,
                      .name = "store",
                      .title = "The library failed",
                      .detail = fmt::format("The library could not do it: {}. Nothing was changed.",
                                            fault.words)});
  }
}

Reply forbidden_host() {
  return closing(refusal({.status = 403,
                          .name = "forbidden-host",
                          .title = "Another address",
                          .detail = "This address is not the workbench's own; open it as "
                                    "http://127.0.0.1 with its port."}));
}

Reply forbidden_origin() {
  return closing(refusal({.status = 403,
                          .name = "forbidden-origin",
                          .title = "Another page",
                          .detail = "Only the workbench's own page may ask this."}));
}

Reply token_needed() {
  Reply reply = refusal({.status = 401,
                         .name = "token-needed",
                         .title = "Token needed",
                         .detail = "Open the workbench with the address that was shown when it was "
                                   "started: it ends in ?token= and the token."});
  reply.headers.emplace_back("WWW-Authenticate", "Bearer");
  return closing(std::move(reply));
}

Reply too_many_requests() {
  return closing(refusal({.status = 429,
                          .name = "too-many-requests",
                          .title = "Too many requests",
                          .detail = "More is asked than can be answered; wait a second.",
                          .retry_after_s = 1}));
}

Reply busy(std::string_view with_what) {
  return refusal({.status = 503,
                  .name = "busy",
                  .title = "Busy",
                  .detail = fmt::format("The coach is busy with {}; try again when one of them is "
                                        "done, or stop one.",
                                        with_what),
                  .retry_after_s = 2});
}

Reply internal() {
  return refusal({.status = 500,
                  .name = "internal",
                  .title = "A fault of the program",
                  .detail = "Something went wrong in the program; nothing was changed. If it comes "
                            "back, please report what you did."});
}

}  // namespace ahead::server
