# Flags of our own targets only: whoever links the engine keeps their own warnings.
add_library(rootstead_flags INTERFACE)
target_include_directories(rootstead_flags INTERFACE ${CMAKE_SOURCE_DIR})
target_compile_options(rootstead_flags INTERFACE
  -Wall -Wextra -Wpedantic -Wconversion -Wsign-conversion -Wshadow -Wdouble-promotion
  -Wnon-virtual-dtor -Wold-style-cast -Wcast-align -Werror
  -ffp-contract=off)  # no fused multiply-add: same input, same bits on every machine

# False alarms of g++ 12 once it optimises: overlaps in plain string concatenation, and the members
# of a std::variant that are not the live one.
target_compile_options(rootstead_flags INTERFACE
  $<$<CXX_COMPILER_ID:GNU>:-Wno-restrict;-Wno-maybe-uninitialized>)

if(ROOTSTEAD_SANITIZE)
  target_compile_options(rootstead_flags INTERFACE
    -fsanitize=address,undefined -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(rootstead_flags INTERFACE -fsanitize=address,undefined)
endif()
if(ROOTSTEAD_COVERAGE)
  target_compile_options(rootstead_flags INTERFACE --coverage -O0)
  target_link_options(rootstead_flags INTERFACE --coverage)
endif()
if(ROOTSTEAD_FUZZ)
  target_compile_options(rootstead_flags INTERFACE -fsanitize=fuzzer-no-link)
  target_link_options(rootstead_flags INTERFACE -fsanitize=fuzzer-no-link)
endif()

find_program(CCACHE ccache)
if(CCACHE)
  set(CMAKE_CXX_COMPILER_LAUNCHER ${CCACHE})
endif()
find_program(LLD ld.lld)
if(LLD)
  add_link_options(-fuse-ld=lld)
endif()
