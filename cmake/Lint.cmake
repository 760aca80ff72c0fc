# Linting reads the files as the compiler would and makes no machine code, which is half the time;
# it reads several of a room at once, which is most of the rest (tools/lint). Each object is the
# preprocessed text (ninja needs a file and its list of headers), libraries and programs are empty.
if(ROOTSTEAD_LINT)
  set(CMAKE_UNITY_BUILD ON)
  set(CMAKE_UNITY_BUILD_BATCH_SIZE 8)
  set(CMAKE_CXX_COMPILER_LAUNCHER "")
  set(CMAKE_CXX_COMPILE_OBJECT
    "<CMAKE_CXX_COMPILER> <DEFINES> <INCLUDES> <FLAGS> -E -o <OBJECT> <SOURCE>"
    "${CMAKE_SOURCE_DIR}/tools/lint <SOURCE> -- <DEFINES> <INCLUDES> <FLAGS>")
  set(CMAKE_CXX_CREATE_STATIC_LIBRARY "<CMAKE_COMMAND> -E touch <TARGET>")
  set(CMAKE_CXX_LINK_EXECUTABLE "<CMAKE_COMMAND> -E touch <TARGET>")
endif()
