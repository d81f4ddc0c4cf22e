# cpack -G DEB: the program with its pantry, samples, manual pages and completions. The same sources give the same bytes
# where SOURCE_DATE_EPOCH is set (reproducible-builds.org). tests/install/package.sh tries it.
set(TUCK_DEBIAN ${CMAKE_CURRENT_BINARY_DIR}/debian)
file(MAKE_DIRECTORY ${TUCK_DEBIAN})
configure_file(src/debian/changelog.in ${TUCK_DEBIAN}/changelog.Debian @ONLY)
execute_process(COMMAND gzip -9nkf ${TUCK_DEBIAN}/changelog.Debian)
# Of the package alone: a folder that somebody installs into is no Debian system.
set(TUCK_PACKAGE_ONLY COMPONENT package EXCLUDE_FROM_ALL)
install(FILES ${TUCK_DEBIAN}/changelog.Debian.gz src/debian/copyright DESTINATION share/doc/tuck ${TUCK_PACKAGE_ONLY})
install(FILES src/debian/overrides DESTINATION share/lintian/overrides RENAME tuck ${TUCK_PACKAGE_ONLY})

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME tuck)
set(CPACK_PACKAGE_VENDOR tuck)
set(CPACK_PACKAGE_CONTACT "The tuck team <tuck@lists.invalid>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "fuel and drink plans for swim, bike and run, with a race-day card")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
    "For a triathlon, a duathlon, an aquathlon or a long session it works out what
the body uses and loses, whether fuel is needed at all, what goes into which
bottle and what is taken when, and prints that on a card for the top tube.
Every number has its source. It is not medical advice.")
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_RELEASE 1)
set(CPACK_DEBIAN_PACKAGE_SECTION utils)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_DEPENDS fonts-liberation)
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS fonts-roboto-unhinted)
set(CPACK_DEBIAN_PACKAGE_SUGGESTS poppler-utils)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_COMPRESSION_TYPE xz)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE
    WORLD_READ WORLD_EXECUTE)
set(CPACK_STRIP_FILES ON)
set(CPACK_DEB_COMPONENT_INSTALL ON)
set(CPACK_COMPONENTS_GROUPING ALL_COMPONENTS_IN_ONE)
set(CPACK_COMPONENTS_ALL program package)
include(CPack)
