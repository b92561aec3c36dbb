#pragma once

#include <cstdint>
#include <string_view>

#include "formats/input_error.h"
#include "server/request.h"
#include "store/library.h"

/// Every way in which the server refuses, each with its sentence: RFC 9457, told to a person.
namespace ahead::server {

// What was asked.
Reply bad_input(const formats::InputError& error);
Reply not_found(std::string_view what);
Reply wrong_method(std::string_view allowed);
Reply wrong_type();
Reply too_large(std::size_t most_bytes);
Reply length_needed();
Reply encoded_body();

// What the library keeps.
Reply condition_missing();
Reply bad_condition();
Reply stale(std::int64_t revision);
Reply taken(std::string_view id);
Reply store_fault(const store::Fault& fault);

// Who asks.
Reply forbidden_host();
Reply forbidden_origin();
Reply token_needed();

// How much is asked.
Reply too_many_requests();
Reply busy(std::string_view with_what);

Reply internal();

}  // namespace ahead::server
