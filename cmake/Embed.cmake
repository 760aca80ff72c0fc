# embed(target SYMBOL name ROOT folder FILES relative-names...): the bytes of the files become part
# of the target, as an array `name` of {path, begin, end} and its length `name_count`
# (io/embedded.hpp reads them).
function(embed target)
  cmake_parse_arguments(EMBED "" "SYMBOL;ROOT" "FILES" ${ARGN})
  set(bytes "")
  set(table "")
  set(depends "")
  set(count 0)
  foreach(name ${EMBED_FILES})
    string(APPEND bytes "${EMBED_SYMBOL}_path_${count}: .asciz \"${name}\"\n"
                        "${EMBED_SYMBOL}_begin_${count}: .incbin \"${EMBED_ROOT}/${name}\"\n"
                        "${EMBED_SYMBOL}_end_${count}: .byte 0\n")
    string(APPEND table "  .quad ${EMBED_SYMBOL}_path_${count}, ${EMBED_SYMBOL}_begin_${count}, "
                        "${EMBED_SYMBOL}_end_${count}\n")
    list(APPEND depends "${EMBED_ROOT}/${name}")
    math(EXPR count "${count} + 1")
  endforeach()
  set(assembly "${CMAKE_CURRENT_BINARY_DIR}/${EMBED_SYMBOL}.S")
  file(CONFIGURE OUTPUT "${assembly}" @ONLY CONTENT "  .section .rodata
${bytes}
  .section .data.rel.ro,\"aw\"
  .balign 8
  .global ${EMBED_SYMBOL}
${EMBED_SYMBOL}:
${table}
  .global ${EMBED_SYMBOL}_count
${EMBED_SYMBOL}_count: .quad ${count}
  .section .note.GNU-stack,\"\",%progbits
")
  set_source_files_properties("${assembly}" PROPERTIES OBJECT_DEPENDS "${depends}")
  target_sources(${target} PRIVATE "${assembly}")
endfunction()
