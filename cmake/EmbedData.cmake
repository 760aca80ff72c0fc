# Puts the files of data/ into the program, so that it runs without the source tree: one assembler
# file with .incbin for each, and an index that io/embedded.hpp reads.
#   embed_data(io_data ${CMAKE_SOURCE_DIR}/data *.csv VERSION rules/*.toml)
function(embed_data target folder)
  list(TRANSFORM ARGN PREPEND "${folder}/" OUTPUT_VARIABLE patterns)
  file(GLOB files CONFIGURE_DEPENDS RELATIVE ${folder} ${patterns})
  list(SORT files)
  set(blobs "")
  set(index "")
  set(number 0)
  foreach(file IN LISTS files)
    string(APPEND blobs "name_${number}:\n  .asciz \"${file}\"\n"
                        "text_${number}:\n  .incbin \"${folder}/${file}\"\nend_${number}:\n")
    string(APPEND index "  .8byte name_${number}, text_${number}, end_${number} - text_${number}\n")
    math(EXPR number "${number} + 1")
  endforeach()
  set(assembly ${CMAKE_CURRENT_BINARY_DIR}/${target}.S)
  file(CONFIGURE OUTPUT ${assembly} @ONLY CONTENT "\
  .section .rodata
@blobs@
  .section .data.rel.ro, \"aw\"
  .balign 8
  .global rootstead_embedded_files
rootstead_embedded_files:
@index@
  .global rootstead_embedded_count
rootstead_embedded_count:
  .8byte @number@
  .section .note.GNU-stack, \"\", %progbits
")
  list(TRANSFORM files PREPEND "${folder}/" OUTPUT_VARIABLE paths)
  set_source_files_properties(${assembly} PROPERTIES OBJECT_DEPENDS "${paths}")
  add_library(${target} OBJECT ${assembly})
endfunction()
