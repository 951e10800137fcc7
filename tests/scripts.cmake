# Tests that run the built command, the packages and the documents, and the
# targets that measure: bench, coverage.
find_program(CXX_PROGRAM NAMES c++ g++ clang++)
if(NOT CXX_PROGRAM)
  set(CXX_PROGRAM "")
endif()

add_test(NAME command.line COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/cli.sh
  $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
foreach(part output terminal words profiles climate audit guard attacks junction replay choose)
  add_test(NAME command.line.${part}
    COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/cli_${part}.sh
      $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
endforeach()
# Counts what the built program does; a sanitizer would be counted with it.
if(NOT BOTHWAYS_SANITIZE AND NOT BOTHWAYS_COVERAGE)
  add_test(NAME linear COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/linear.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  set_tests_properties(linear PROPERTIES SKIP_RETURN_CODE 77)
endif()
# What they read is the sources and how they are compiled, not what runs.
if(NOT BOTHWAYS_SANITIZE)
  add_test(NAME setup COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/setup.sh
    ${PROJECT_SOURCE_DIR})
  add_test(NAME headers COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/headers.sh
    ${PROJECT_SOURCE_DIR} ${CMAKE_C_COMPILER} "${CXX_PROGRAM}")
  add_test(NAME abi COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/abi.sh
    ${PROJECT_SOURCE_DIR} ${CMAKE_C_COMPILER} ${PROJECT_BINARY_DIR})
  add_test(NAME glossary COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/glossary.sh
    ${PROJECT_SOURCE_DIR})
  add_test(NAME structure COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/structure.sh
    ${PROJECT_BINARY_DIR} ${PROJECT_SOURCE_DIR})
endif()
foreach(program describe_tables describe_criteria)
  add_executable(${program} ${program}.c)
  target_include_directories(${program} PRIVATE ${PROJECT_SOURCE_DIR}/include)
  target_link_libraries(${program} PRIVATE bothways_static bw_compile)
endforeach()
add_test(NAME pages COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/html.sh
  $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
add_test(NAME walls.damp COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/damp_walls.sh
  $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
# Documents and sheets against the program; what they run, other tests run as well.
if(NOT BOTHWAYS_SANITIZE)
  add_test(NAME json COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/json.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  add_test(NAME recompute COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/recompute.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  add_test(NAME documents COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/documents.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  add_test(NAME tables.described COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/tables.sh
    $<TARGET_FILE:describe_tables> ${PROJECT_SOURCE_DIR})
  add_test(NAME manual COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/manual.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  add_test(NAME completion COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/completion.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
endif()
# A sanitized or counted library asks more of its user than a package tells.
if(NOT BOTHWAYS_SANITIZE AND NOT BOTHWAYS_COVERAGE)
  add_test(NAME install.consumer
    COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/install.sh ${PROJECT_SOURCE_DIR}
      ${PROJECT_BINARY_DIR} ${CMAKE_C_COMPILER} ${CMAKE_COMMAND})
endif()

add_subdirectory(fuzz)

add_executable(bench_check EXCLUDE_FROM_ALL bench_check.c)
target_include_directories(bench_check PRIVATE ${PROJECT_SOURCE_DIR}/include)
target_link_libraries(bench_check PRIVATE bothways_static bw_compile)
add_custom_target(bench
  COMMAND bench_check $<TARGET_FILE:bothways>
    ${PROJECT_SOURCE_DIR}/assemblies/estuary-fibre.xml
    ${PROJECT_SOURCE_DIR}/assemblies/climates/estuary.csv
  DEPENDS bench_check bothways USES_TERMINAL)
# What each part of a check costs on each demonstration wall.
add_executable(bench_parts EXCLUDE_FROM_ALL bench_parts.c)
target_include_directories(bench_parts PRIVATE
  ${PROJECT_SOURCE_DIR}/include ${PROJECT_SOURCE_DIR}/src
  ${PROJECT_SOURCE_DIR}/src/base ${PROJECT_SOURCE_DIR}/src/criterion)
target_link_libraries(bench_parts PRIVATE bothways_static bw_compile)
file(GLOB walls ${PROJECT_SOURCE_DIR}/assemblies/*.xml)
add_custom_target(bench_walls
  COMMAND bench_parts ${PROJECT_SOURCE_DIR}/materials ${walls}
  DEPENDS bench_parts USES_TERMINAL)

# What the hours of a junction cost.
add_executable(bench_junction_hours EXCLUDE_FROM_ALL bench_junction_hours.c)
target_include_directories(bench_junction_hours PRIVATE
  ${PROJECT_SOURCE_DIR}/include ${PROJECT_SOURCE_DIR}/src
  ${PROJECT_SOURCE_DIR}/src/base ${PROJECT_SOURCE_DIR}/src/climate
  ${PROJECT_SOURCE_DIR}/src/assembly ${PROJECT_SOURCE_DIR}/src/transient)
target_link_libraries(bench_junction_hours PRIVATE bothways_static bw_compile)
target_compile_options(bench_junction_hours PRIVATE -Wno-conversion
  -Wno-shadow)
if(SUNDIALS_FOUND)
  target_compile_definitions(bench_junction_hours PRIVATE BW_HAVE_CVODE)
  target_link_libraries(bench_junction_hours PRIVATE SUNDIALS::cvode
    SUNDIALS::nvecserial SUNDIALS::sunmatrixband SUNDIALS::sunlinsolband
    SUNDIALS::sunlinsolspgmr)
endif()
add_custom_target(bench_hours
  COMMAND bench_junction_hours ${PROJECT_SOURCE_DIR}/materials
    ${PROJECT_SOURCE_DIR}/assemblies/junctions/upland-joist-end.xml 365
  DEPENDS bench_junction_hours USES_TERMINAL)

# Random walls through the hourly method: none may end without an answer.
add_executable(answer_all EXCLUDE_FROM_ALL answer_all.c)
target_include_directories(answer_all PRIVATE ${PROJECT_SOURCE_DIR}/include)
target_link_libraries(answer_all PRIVATE bothways_static bw_compile)
target_compile_options(answer_all PRIVATE -Wno-conversion -Wno-shadow)

if(BOTHWAYS_COVERAGE)
  add_custom_target(coverage
    COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/coverage.sh ${PROJECT_SOURCE_DIR}
      ${PROJECT_BINARY_DIR} ${CMAKE_CTEST_COMMAND} USES_TERMINAL)
endif()

# The machine fails on demand: tests/faults.sh. Needs the C library's own
# allocation functions under their private names (glibc), and no sanitizer.
# "cmake --build build --target faults" refuses every allocation, one by one.
if(NOT BOTHWAYS_SANITIZE AND NOT BOTHWAYS_FUZZ
   AND CMAKE_SYSTEM_NAME STREQUAL "Linux")
  # Its own arena, compiled so that every allocation can fail, stands before
  # that of the library.
  if(BOTHWAYS_UNITY)
    # compiled alone: its arena cannot stand before one among many sources
    add_library(fault_allocation OBJECT)
  else()
    add_executable(fault_allocation)
  endif()
  target_sources(fault_allocation PRIVATE faults/allocation.c faults/allocator.c
    faults/held.c faults/stages_input.c faults/stages_method.c
    faults/stages_report.c ${PROJECT_SOURCE_DIR}/src/base/arena.c)
  target_compile_definitions(fault_allocation PRIVATE BW_ARENA_DEBUG)
  add_executable(fault_locale faults/locale.c)
  foreach(target fault_allocation fault_locale)
    target_include_directories(${target} PRIVATE ${PROJECT_SOURCE_DIR}/include)
    target_link_libraries(${target} PRIVATE bothways_static)
  endforeach()
  add_library(fault_machine MODULE faults/machine.c)
  target_link_libraries(fault_machine PRIVATE ${CMAKE_DL_LIBS})
  foreach(target fault_allocation fault_locale fault_machine)
    target_compile_features(${target} PRIVATE c_std_17)
    target_compile_options(${target} PRIVATE -Wall -Wextra
      $<$<BOOL:${BOTHWAYS_WERROR}>:-Werror>)
  endforeach()
  if(NOT BOTHWAYS_UNITY)
    set(faults sh ${CMAKE_CURRENT_SOURCE_DIR}/faults.sh
      $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR}
      $<TARGET_FILE_DIR:fault_allocation>)
    add_test(NAME faults COMMAND ${faults})
    add_custom_target(faults COMMAND ${faults} 1
      DEPENDS bothways fault_allocation fault_locale fault_machine USES_TERMINAL)
  endif()
endif()
# A sanitizer keeps what was freed: its memory tells nothing.
add_executable(peak peak.c)
set(peak)
if(NOT BOTHWAYS_SANITIZE)
  set(peak $<TARGET_FILE:peak>)
endif()
add_test(NAME many.walls COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/many_walls.sh
  $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR} ${peak})
# A sanitizer sees each of these walls checked by other scripts.
if(NOT BOTHWAYS_SANITIZE)
  add_test(NAME golden COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/golden.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
endif()
# Two dozen years-long simulations: minutes on all cores, and hours with a
# sanitizer, which has the suites of the simulation.
if(NOT BOTHWAYS_SANITIZE AND NOT BOTHWAYS_COVERAGE)
  include(ProcessorCount)
  ProcessorCount(cores)
  add_test(NAME field.walls
    COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/field_walls.sh
      $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  add_test(NAME screen COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/screen.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  set_tests_properties(screen PROPERTIES TIMEOUT 1800)
  add_test(NAME questions COMMAND sh ${CMAKE_CURRENT_SOURCE_DIR}/questions.sh
    $<TARGET_FILE:bothways> ${PROJECT_SOURCE_DIR})
  set_tests_properties(questions PROPERTIES TIMEOUT 1800)
  if(cores EQUAL 0)
    set(cores 1)
  endif()
  set_tests_properties(field.walls PROPERTIES TIMEOUT 3600
    PROCESSORS ${cores})
endif()
# Suites a second time, of which one simulates junctions: not with a sanitizer.
if(NOT BOTHWAYS_SANITIZE AND NOT BOTHWAYS_COVERAGE)
  add_test(NAME validation.figures COMMAND sh
    ${CMAKE_CURRENT_SOURCE_DIR}/validation.sh ${CMAKE_CURRENT_BINARY_DIR}
    ${PROJECT_SOURCE_DIR})
  set_tests_properties(validation.figures PROPERTIES TIMEOUT 1800)
endif()
# A sanitizer maps more than any bound on memory allows, and what it would be shown
# a further time the usual build alone runs; the scripts say which.
if(BOTHWAYS_SANITIZE)
  foreach(script "" .output .terminal .words .profiles .climate .audit .guard .attacks
          .junction .replay .choose)
    set_tests_properties(command.line${script} PROPERTIES
      ENVIRONMENT BOTHWAYS_SANITIZED=1)
  endforeach()
  set_tests_properties(pages walls.damp many.walls PROPERTIES
    ENVIRONMENT BOTHWAYS_SANITIZED=1)
  # Hundreds of short runs: to look for leaks at each end costs as much as all else
  # of the shortest. The suites, the other scripts and the fuzzer of the whole program
  # look.
  foreach(script .terminal .words .guard .output .junction .attacks)
    set_property(TEST command.line${script} APPEND PROPERTY
      ENVIRONMENT "ASAN_OPTIONS=malloc_context_size=4:detect_leaks=0")
  endforeach()
endif()
