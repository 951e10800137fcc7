# The command stands on the public API; of the library's own it uses what
# prints. It links the static library, so that it runs from anywhere.
add_executable(bothways
  command/cmd_audit.c
  command/cmd_check.c
  command/cmd_choose.c
  command/cmd_climate.c
  command/cmd_compare.c
  command/cmd_junction.c
  command/cmd_import.c
  command/cmd_margin.c
  command/cmd_materials.c
  command/cmd_replay.c
  command/command_line.c
  command/dated.c
  command/emit.c
  command/emit_many.c
  command/kept_cases.c
  command/kept_digest.c
  command/library.c
  command/main.c
  command/material_page.c
  command/operands.c
  command/options.c
  command/profiles.c
  command/targets.c
  command/terminal.c
  command/verify.c
  command/walls.c)
set_target_properties(bothways PROPERTIES C_EXTENSIONS OFF
  POSITION_INDEPENDENT_CODE ON)
target_link_options(bothways PRIVATE -pie)
target_include_directories(bothways PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/command ${CMAKE_CURRENT_SOURCE_DIR}/report
  ${CMAKE_CURRENT_SOURCE_DIR}/base
  ${CMAKE_CURRENT_SOURCE_DIR}/material ${CMAKE_CURRENT_SOURCE_DIR}/input)
target_link_libraries(bothways PRIVATE bothways_static bw_compile)

# Data is found relative to the program, so that an installation may be moved.
# The build tree holds a link at the same relative place.
file(RELATIVE_PATH data_from_program
  "/prefix/${CMAKE_INSTALL_BINDIR}" "/prefix/${BOTHWAYS_DATA_DIR}")
target_compile_definitions(bothways PRIVATE
  BW_DATA_FROM_PROGRAM="${data_from_program}")
get_filename_component(build_data
  "${CMAKE_CURRENT_BINARY_DIR}/${data_from_program}" ABSOLUTE)
file(MAKE_DIRECTORY "${build_data}")
foreach(data materials assemblies)
  file(CREATE_LINK "${PROJECT_SOURCE_DIR}/${data}" "${build_data}/${data}"
    SYMBOLIC)
endforeach()
