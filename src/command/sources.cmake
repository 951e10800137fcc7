# The command stands on the public API; it links the static library so that
# the built program runs from anywhere.
add_executable(bothways
  command/main.c)
set_target_properties(bothways PROPERTIES C_EXTENSIONS OFF)
target_include_directories(bothways PRIVATE
  ${CMAKE_CURRENT_SOURCE_DIR}/command ${CMAKE_CURRENT_SOURCE_DIR}/base)
target_link_libraries(bothways PRIVATE bothways_static bw_compile)
