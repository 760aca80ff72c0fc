# A room is one static library. Its sources are the .cpp files of its folder; what it may include
# is checked by tools/check_layers, what it links is said here.
#   room(engine_geom LINKS engine_base)
function(room name)
  cmake_parse_arguments(ROOM "" "" "LINKS;PRIVATE_LINKS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS *.cpp)
  if(sources)
    add_library(${name} STATIC ${sources})
    target_link_libraries(${name} PUBLIC ${ROOM_LINKS} PRIVATE ${ROOM_PRIVATE_LINKS} rootstead_flags)
    target_include_directories(${name} PUBLIC ${CMAKE_SOURCE_DIR})
    # Under sanitizers unoptimised code makes the tests wait; -Og compiles nearly as fast. Lines are
    # what their reports need of debug data; all of it is a fifth of the compiler's time.
    target_compile_options(${name} PRIVATE "$<$<CONFIG:Debug>:-Og;-g1>")
  else()
    add_library(${name} INTERFACE)
    target_link_libraries(${name} INTERFACE ${ROOM_LINKS})
    target_include_directories(${name} INTERFACE ${CMAKE_SOURCE_DIR})
  endif()
endfunction()

# The tests of one room: one executable from the .cpp files of this folder, one ctest entry.
# SECONDS is about how long they take: ctest begins with the longest.
#   room_tests(engine_geom LINKS GEOS::geos_c SECONDS 15)
function(room_tests name)
  cmake_parse_arguments(TESTS "" "SECONDS" "LINKS" ${ARGN})
  file(GLOB sources CONFIGURE_DEPENDS *.cpp)
  if(NOT sources)
    return()
  endif()
  set(target tests_${name})
  add_executable(${target} ${sources})
  target_link_libraries(${target} PRIVATE ${name} ${TESTS_LINKS} test_support test_flags)
  target_precompile_headers(${target} REUSE_FROM test_support)
  add_test(NAME ${name} COMMAND ${target} --gtest_output=xml:${CMAKE_BINARY_DIR}/test-results/${name}.xml)
  set_tests_properties(${name} PROPERTIES ENVIRONMENT
    "UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1;LSAN_OPTIONS=suppressions=${CMAKE_SOURCE_DIR}/tests/support/leaks.supp:print_suppressions=0;ROOTSTEAD_SOURCE_DIR=${CMAKE_SOURCE_DIR};ROOTSTEAD_SHARED_DATA=${CMAKE_SOURCE_DIR}/../shared/data")
  if(TESTS_SECONDS)
    set_tests_properties(${name} PROPERTIES COST ${TESTS_SECONDS})
  endif()
endfunction()
