# Several sources compiled as one: starting a compiler for each of them and reading
# the same headers again is more than half of a build. Which go together is found
# from the names they define (unity.awk), anew at every configuration, so that a
# source needs to know nothing of it. The folders make three parts, by how they
# are compiled; which private headers a folder may see the usual build checks.
# BOTHWAYS_QUICK, the set-up of the command, besides optimises what computes as far
# as pays within one check, and what reads and prints not at all; docs/quality.md
# has the figures.
set(bw_computed ${BW_COMPUTED})
set(bw_model base material climate assembly criterion profile)

function(bw_unity_groups target)
  set(sources ${ARGN})
  file(GLOB headers RELATIVE ${CMAKE_CURRENT_SOURCE_DIR}
    ${CMAKE_CURRENT_SOURCE_DIR}/*/*.h
    ${PROJECT_SOURCE_DIR}/include/bothways/*.h)
  execute_process(
    COMMAND awk -v most=6000 -f ${CMAKE_CURRENT_SOURCE_DIR}/unity.awk
            ${sources} ${headers}
    WORKING_DIRECTORY ${CMAKE_CURRENT_SOURCE_DIR}
    OUTPUT_VARIABLE grouped OUTPUT_STRIP_TRAILING_WHITESPACE
    RESULT_VARIABLE failed)
  if(NOT failed EQUAL 0)
    message(FATAL_ERROR "unity.awk: ${failed}")
  endif()
  string(REPLACE "\n" ";" grouped "${grouped}")
  foreach(line IN LISTS grouped)
    string(REGEX MATCH "^(g[0-9]+) (.*)$" line "${line}")
    set_source_files_properties("${CMAKE_MATCH_2}" PROPERTIES
      UNITY_GROUP ${CMAKE_MATCH_1})
  endforeach()
  set_target_properties(${target} PROPERTIES
    UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
  # a name of one source shadows another's: warnings are the usual build's
  target_compile_options(${target} PRIVATE -w)
endfunction()

# Checked calls need optimisation.
function(bw_as_written target)
  target_compile_options(${target} PRIVATE -O0)
  set_target_properties(${target} PROPERTIES BW_COMPUTES ON)
endfunction()

function(bw_unity_part name)
  set(sources)
  foreach(folder IN LISTS ARGN)
    get_target_property(of_folder bw_${folder} SOURCES)
    list(APPEND sources ${of_folder})
  endforeach()
  add_library(bw_of_${name} OBJECT ${sources})
  set_target_properties(bw_of_${name} PROPERTIES
    C_EXTENSIONS OFF POSITION_INDEPENDENT_CODE ON
    C_VISIBILITY_PRESET ${BW_VISIBILITY})
  target_link_libraries(bw_of_${name} PRIVATE bw_compile LibXml2::LibXml2)
  foreach(folder IN LISTS ARGN)
    foreach(property INCLUDE_DIRECTORIES COMPILE_DEFINITIONS COMPILE_OPTIONS)
      get_target_property(value bw_${folder} ${property})
      if(value)
        set_property(TARGET bw_of_${name} APPEND PROPERTY ${property} ${value})
      endif()
    endforeach()
    set_target_properties(bw_${folder} PROPERTIES EXCLUDE_FROM_ALL ON)
  endforeach()
  bw_unity_groups(bw_of_${name} ${sources})
endfunction()

set(rest)
foreach(folder IN LISTS folders)
  string(REGEX REPLACE "^bw_" "" folder ${folder})
  if(NOT folder IN_LIST bw_computed AND NOT folder IN_LIST bw_model)
    list(APPEND rest ${folder})
  endif()
endforeach()
bw_unity_part(computed ${bw_computed})
bw_unity_part(model ${bw_model})
bw_unity_part(rest ${rest})
set_target_properties(bw_of_computed PROPERTIES BW_COMPUTES ON)
set(folders bw_of_computed bw_of_model bw_of_rest)
if(BOTHWAYS_QUICK)
  target_compile_options(bw_of_computed PRIVATE -O2)
  target_compile_options(bw_of_model PRIVATE -O1)
  bw_as_written(bw_of_rest)
endif()

function(bw_unity_command)
  get_target_property(sources bothways SOURCES)
  bw_unity_groups(bothways ${sources})
  if(BOTHWAYS_QUICK)
    bw_as_written(bothways)
  endif()
endfunction()
