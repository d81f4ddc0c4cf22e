#include "cli/licences.hpp"

namespace tuck::cli {

const char* licences_text() {
    return R"licences(LICENCES

tuck itself: MIT (Expat), 2026 the tuck maintainers; the text stands below.
It is made with the work of others. On Debian the whole text of each stands in
/usr/share/doc/PACKAGE/copyright; the page carries those of its own parts.

Linked by the program          package            licence
  libharu: writes the PDFs     libhpdf-2.3.0      libharu's own, below
  expat: reads GPX             libexpat1          MIT
  fmt: text from numbers       libfmt9            MIT, with an exception
  zlib, through libharu        zlib1g             Zlib
  libpng, through libharu      libpng16-16        libpng
  C++ runtime                  libstdc++6         GPL-3+, runtime exception
  compiler's runtime           libgcc-s1          GPL-3+, runtime exception
  C library                    libc6              LGPL-2.1+
Linked by tuck-check alone
  qpdf: reads finished PDFs    libqpdf29          Apache-2.0
Compiled in, from headers
  nlohmann/json                nlohmann-json3-dev MIT
  CLI11                        libcli11-dev       BSD-3-clause, below
  utfcpp                       libutfcpp-dev      BSL-1.0
  fast_float                   libfast-float-dev  MIT or Apache-2.0
Fonts, subset in every PDF; an exception leaves the PDF itself free
  Liberation                   fonts-liberation   GPL-2, font exception
  Roboto (some names)          fonts-roboto-unhinted  Apache-2.0
In the page, compiled to WebAssembly or carried whole
  libharu, zlib, expat, fmt, nlohmann/json, utfcpp, fast_float, as above
  emscripten's runtime         emscripten         MIT or NCSA
  musl: C library              emscripten         MIT
  libc++, libc++abi            emscripten         Apache-2.0, LLVM exception
  compiler-rt                  emscripten         Apache-2.0, LLVM exception
  dlmalloc                     emscripten         public domain
  Liberation, Roboto           as above: without tables that the PDF writer
                               does not read; whole, and as sources, they are
                               Debian's packages of those names

Copyright of what is compiled in
  nlohmann/json  2013-2022 Niels Lohmann; 2009 Florian Loitsch;
                 2008-2009 Bjoern Hoehrmann
  CLI11          2017-2020 University of Cincinnati, developed by Henry
                 Schreiner under NSF AWARD 1414736
  utfcpp         2006-2021 Nemanja Trifunovic
  fast_float     2020-2023 Daniel Lemire and its contributors
  fmt            2012-2020 Victor Zverovich
  libharu        1999-2006 Takeshi Kanno; 2007-2015 Antony Dovgal;
                 2010 Sergey Konovalov; 2011 Koen Deforche

MIT (Expat)

Permission is hereby granted, free of charge, to any person obtaining a copy
of this software and associated documentation files (the "Software"), to deal
in the Software without restriction, including without limitation the rights
to use, copy, modify, merge, publish, distribute, sublicense, and/or sell
copies of the Software, and to permit persons to whom the Software is
furnished to do so, subject to the following conditions:

The above copyright notice and this permission notice shall be included in all
copies or substantial portions of the Software.

THE SOFTWARE IS PROVIDED "AS IS", WITHOUT WARRANTY OF ANY KIND, EXPRESS OR
IMPLIED, INCLUDING BUT NOT LIMITED TO THE WARRANTIES OF MERCHANTABILITY,
FITNESS FOR A PARTICULAR PURPOSE AND NONINFRINGEMENT. IN NO EVENT SHALL THE
AUTHORS OR COPYRIGHT HOLDERS BE LIABLE FOR ANY CLAIM, DAMAGES OR OTHER
LIABILITY, WHETHER IN AN ACTION OF CONTRACT, TORT OR OTHERWISE, ARISING FROM,
OUT OF OR IN CONNECTION WITH THE SOFTWARE OR THE USE OR OTHER DEALINGS IN THE
SOFTWARE.

BSD-3-clause (CLI11)

Redistribution and use in source and binary forms, with or without
modification, are permitted provided that the following conditions
are met:
1. Redistributions of source code must retain the above copyright
   notice, this list of conditions and the following disclaimer.
2. Redistributions in binary form must reproduce the above copyright
   notice, this list of conditions and the following disclaimer in the
   documentation and/or other materials provided with the distribution.
3. Neither the name of the University nor the names of its contributors
   may be used to endorse or promote products derived from this software
   without specific prior written permission.

THIS SOFTWARE IS PROVIDED BY THE REGENTS AND CONTRIBUTORS ``AS IS'' AND
ANY EXPRESS OR IMPLIED WARRANTIES, INCLUDING, BUT NOT LIMITED TO, THE
IMPLIED WARRANTIES OF MERCHANTABILITY AND FITNESS FOR A PARTICULAR PURPOSE
ARE DISCLAIMED.  IN NO EVENT SHALL THE REGENTS OR CONTRIBUTORS BE LIABLE
FOR ANY DIRECT, INDIRECT, INCIDENTAL, SPECIAL, EXEMPLARY, OR CONSEQUENTIAL
DAMAGES (INCLUDING, BUT NOT LIMITED TO, PROCUREMENT OF SUBSTITUTE GOODS
OR SERVICES; LOSS OF USE, DATA, OR PROFITS; OR BUSINESS INTERRUPTION)
HOWEVER CAUSED AND ON ANY THEORY OF LIABILITY, WHETHER IN CONTRACT, STRICT
LIABILITY, OR TORT (INCLUDING NEGLIGENCE OR OTHERWISE) ARISING IN ANY WAY
OUT OF THE USE OF THIS SOFTWARE, EVEN IF ADVISED OF THE POSSIBILITY OF
SUCH DAMAGE.

libharu

Permission to use, copy, modify, distribute and sell this software
and its documentation for any purpose is hereby granted without fee,
provided that the above copyright notice appear in all copies and
that both that copyright notice and this permission notice appear
in supporting documentation.
It is provided "as is" without express or implied warranty.
)licences";
}

} // namespace tuck::cli
