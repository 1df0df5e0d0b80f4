# What cmake --install puts where: headers, the libraries, the CMake package, the .pc files, the
# schema of the file format. No installed file holds the place that it was installed to, so that a
# prefix can be moved.

include(CMakePackageConfigHelpers)

set(package_dir ${CMAKE_CURRENT_SOURCE_DIR}/package)
set(cmake_dir ${CMAKE_INSTALL_LIBDIR}/cmake/trivet)
set(pkgconfig_dir ${CMAKE_INSTALL_LIBDIR}/pkgconfig)

install(DIRECTORY ${PROJECT_SOURCE_DIR}/include/trivet DESTINATION ${CMAKE_INSTALL_INCLUDEDIR}
        FILES_MATCHING PATTERN "*.h")

# install_targets(SET TARGET...): one file of exported targets a set. The static ones stand apart,
# because they ask for the outside libraries, which somebody who links the shared ones need not have.
function(install_targets set)
  install(TARGETS ${ARGN} EXPORT ${set}
    ARCHIVE DESTINATION ${CMAKE_INSTALL_LIBDIR}
    LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}
    INCLUDES DESTINATION ${CMAKE_INSTALL_INCLUDEDIR})
  install(EXPORT ${set} NAMESPACE trivet:: DESTINATION ${cmake_dir} FILE ${set}.cmake)
endfunction()

# No name of a set may begin with another's: the files of its build types are found by a pattern.
install_targets(trivet-shared trivet)
install_targets(trivet-static trivet-static)
if(TARGET trivet-document)
  install_targets(trivet-document-shared trivet-document)
  install_targets(trivet-document-static trivet-document-static)
endif()

configure_package_config_file(${package_dir}/trivet-config.cmake.in
  ${CMAKE_CURRENT_BINARY_DIR}/trivet-config.cmake INSTALL_DESTINATION ${cmake_dir}
  NO_SET_AND_CHECK_MACRO)
write_basic_package_version_file(${CMAKE_CURRENT_BINARY_DIR}/trivet-config-version.cmake
  COMPATIBILITY SameMinorVersion)
install(FILES ${CMAKE_CURRENT_BINARY_DIR}/trivet-config.cmake
              ${CMAKE_CURRENT_BINARY_DIR}/trivet-config-version.cmake DESTINATION ${cmake_dir})

# The prefix of a .pc file is found from where the file lies.
file(RELATIVE_PATH prefix_from_pc /prefix/${pkgconfig_dir} /prefix)
string(REGEX REPLACE "/$" "" prefix_from_pc "${prefix_from_pc}")
foreach(name trivet trivet-document)
  if(TARGET ${name})
    configure_file(${package_dir}/${name}.pc.in ${CMAKE_CURRENT_BINARY_DIR}/${name}.pc @ONLY)
    install(FILES ${CMAKE_CURRENT_BINARY_DIR}/${name}.pc DESTINATION ${pkgconfig_dir})
  endif()
endforeach()

if(EXISTS ${CMAKE_CURRENT_SOURCE_DIR}/document/trivet.schema.json)
  install(FILES document/trivet.schema.json DESTINATION ${CMAKE_INSTALL_DATADIR}/trivet)
endif()
