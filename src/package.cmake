# Documents and schemas, and the Debian package: `cpack` in the build folder,
# configured with -DCMAKE_INSTALL_PREFIX=/usr, so that libraries go to the
# folder of the architecture (tests/package.sh).
install(DIRECTORY docs/ DESTINATION ${CMAKE_INSTALL_DOCDIR}
  FILES_MATCHING PATTERN "*.md")
install(DIRECTORY docs/ DESTINATION ${BOTHWAYS_DATA_DIR}/schema
  FILES_MATCHING PATTERN "*.xsd" PATTERN "*.schema.json")

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_CONTACT "bothways maintainers <maintainers@bothways.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "${PROJECT_DESCRIPTION}")
set(CPACK_PACKAGING_INSTALL_PREFIX "${CMAKE_INSTALL_PREFIX}")
set(CPACK_STRIP_FILES ON)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
"checks whether a wall, roof or floor stays dry
 Reads a layered construction with its climate and room, runs the period
 balance, the monthly method in both vapour directions, surface humidity,
 drying tests and an hourly simulation, and prints a verdict per criterion.
 Holds the command, the C library with headers, materials and examples.")
include(CPack)
