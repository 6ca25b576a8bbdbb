# embed_text(TARGET NAME FILE) compiles a text file into TARGET as `extern const std::string_view bw::NAME`.
# The file is read when the build is configured, which happens again whenever it changes.
function(embed_text target name file)
  set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${file}")
  file(READ "${file}" EMBEDDED_TEXT)
  set(EMBEDDED_NAME "${name}")
  set(source "${CMAKE_CURRENT_BINARY_DIR}/embedded_${name}.cpp")
  configure_file("${PROJECT_SOURCE_DIR}/resources/cmake/embedded_text.cpp.in" "${source}" @ONLY)
  target_sources(${target} PRIVATE "${source}")
endfunction()
