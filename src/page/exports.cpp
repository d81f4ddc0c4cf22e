// What the WebAssembly module gives to the script around it: two questions and the answer's bytes.
#include "page/engine.hpp"

#include <emscripten.h>

namespace {

tuck::page::Engine& engine() {
    static tuck::page::Engine only("/foods");
    return only;
}

tuck::page::Reply last;

} // namespace

extern "C" {

/// UTF-8 JSON of `size` bytes. Returns the reply's code.
EMSCRIPTEN_KEEPALIVE int tuck_ask(const char* question, int size) {
    last = engine().ask(std::string(question, static_cast<std::size_t>(size)));
    return last.code;
}

/// A file that the user opened.
EMSCRIPTEN_KEEPALIVE int tuck_open(const char* name, const char* language, const char* text, int size) {
    last = engine().open(name, std::string(text, static_cast<std::size_t>(size)), language);
    return last.code;
}

EMSCRIPTEN_KEEPALIVE const char* tuck_reply() {
    return last.bytes.data();
}
EMSCRIPTEN_KEEPALIVE int tuck_reply_size() {
    return static_cast<int>(last.bytes.size());
}
}
