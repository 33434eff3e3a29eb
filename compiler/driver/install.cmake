# The program, the library's text for reading, the lettering face and the manual page: an installed copy works from any folder.
if(TARGET ferrule)
  add_custom_command(OUTPUT ${CMAKE_BINARY_DIR}/generated/ferrule.1
    COMMAND ferrule --manual > ${CMAKE_BINARY_DIR}/generated/ferrule.1 DEPENDS ferrule VERBATIM)
  add_custom_target(manual_page ALL DEPENDS ${CMAKE_BINARY_DIR}/generated/ferrule.1)
  install(TARGETS ferrule RUNTIME DESTINATION ${CMAKE_INSTALL_BINDIR})
  install(TARGETS ferrule_canvas LIBRARY DESTINATION lib/ferrule)
  install(FILES ${CMAKE_BINARY_DIR}/generated/ferrule.1 DESTINATION ${CMAKE_INSTALL_MANDIR}/man1)
  install(DIRECTORY ${CMAKE_SOURCE_DIR}/stdlib/ DESTINATION ${CMAKE_INSTALL_DATADIR}/ferrule/stdlib FILES_MATCHING PATTERN "*.fer")
  set(osifont /usr/share/fonts/truetype/osifont/osifont.ttf)
  if(EXISTS ${osifont})
    install(FILES ${osifont} DESTINATION ${CMAKE_INSTALL_DATADIR}/ferrule/fonts)
  endif()
endif()
