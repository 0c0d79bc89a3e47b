# Boost's headers (Odeint and Math), from the system or from the PyPI package `boost-headers`, which
# has no CMake files of its own: its site-packages folder must be in CMAKE_PREFIX_PATH.
# Gives whimbrel::boost.
if(NOT TARGET whimbrel::boost)
  find_path(WHIMBREL_BOOST_INCLUDE boost/numeric/odeint.hpp
            HINTS ${Boost_INCLUDE_DIR} PATH_SUFFIXES boost_headers/include)
  include(FindPackageHandleStandardArgs)
  find_package_handle_standard_args(
    WhimbrelBoost REQUIRED_VARS WHIMBREL_BOOST_INCLUDE
    REASON_FAILURE_MESSAGE "install Boost's headers: apt install libboost-dev, or pip install boost-headers")
  if(WhimbrelBoost_FOUND)
    add_library(whimbrel::boost INTERFACE IMPORTED)
    set_target_properties(whimbrel::boost PROPERTIES INTERFACE_SYSTEM_INCLUDE_DIRECTORIES
                                                     "${WHIMBREL_BOOST_INCLUDE}"
                          INTERFACE_INCLUDE_DIRECTORIES "${WHIMBREL_BOOST_INCLUDE}")
  endif()
  mark_as_advanced(WHIMBREL_BOOST_INCLUDE)
endif()
