# What every target of ours is compiled with.
# -ffp-contract=off: a fused multiply-add changes the last digits, and the same shot must end in the
# same place on every machine. Missing initialisers are allowed because designated initialisers leave
# out the members whose defaults are meant.
add_library(ahead_house INTERFACE)
target_include_directories(ahead_house INTERFACE ${PROJECT_SOURCE_DIR})
target_compile_options(ahead_house INTERFACE
  -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wno-missing-field-initializers -Werror
  -ffp-contract=off)

# room(NAME [PROGRAM program] USES targets...)
#
# The library `ahead_NAME` of every .cpp under the calling folder, or, with PROGRAM, an executable of
# that name. Headers are included by their full path from the root: "engine/geometry/vec.h".
function(room name)
  cmake_parse_arguments(PARSE_ARGV 1 room "" "PROGRAM" "USES")
  file(GLOB_RECURSE sources CONFIGURE_DEPENDS *.cpp)

  if(NOT sources)
    message(STATUS "Room ${name} has no .cpp yet")
    if(NOT room_PROGRAM)
      add_library(ahead_${name} INTERFACE)
      target_link_libraries(ahead_${name} INTERFACE ahead_house ${room_USES})
    endif()
    return()
  endif()

  if(room_PROGRAM)
    add_executable(${room_PROGRAM} ${sources})
    target_link_libraries(${room_PROGRAM} PRIVATE ahead_house ${room_USES})
  else()
    add_library(ahead_${name} STATIC ${sources})
    target_link_libraries(ahead_${name} PUBLIC ahead_house ${room_USES})
  endif()
endfunction()

# embed(ROOM FUNCTION files...)
#
# Compiles files into the room's library, so that the program needs no data files. For
#
#     embed(formats embedded_schema schema/layout.json schema/strike.json)
#
# write `#include "formats/embedded_schema.h"` and call, in namespace ahead::formats,
#
#     embedded_schema("layout")    the text of schema/layout.json as a std::optional<std::string_view>,
#                                  empty when there is no such file
#     embedded_schema_names()      {"layout", "strike"}, sorted, as a span of string views
#
# A file is known by its name up to the first dot. A changed file is embedded anew by the next build.
function(embed room function)
  list(SORT ARGN)
  set(count 0)
  set(names "")
  set(texts "")
  foreach(file IN LISTS ARGN)
    cmake_path(ABSOLUTE_PATH file)
    cmake_path(GET file STEM name)
    file(READ ${file} text)
    string(APPEND names "    \"${name}\",\n")
    string(APPEND texts "    R\"embedded(${text})embedded\"sv,\n")
    math(EXPR count "${count} + 1")
    set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS ${file})
  endforeach()

  set(root ${PROJECT_BINARY_DIR}/embedded)
  configure_file(${PROJECT_SOURCE_DIR}/cmake/embedded.h.in ${root}/${room}/${function}.h @ONLY)
  configure_file(${PROJECT_SOURCE_DIR}/cmake/embedded.cpp.in ${root}/${room}/${function}.cpp @ONLY)

  get_target_property(kind ahead_${room} TYPE)
  if(kind STREQUAL "STATIC_LIBRARY")
    target_sources(ahead_${room} PRIVATE ${root}/${room}/${function}.cpp)
    target_include_directories(ahead_${room} PUBLIC ${root})
  endif()
endfunction()
