// The page's door on this machine: a question a line on standard input, and for each its code and the size of
// the answer on a line, then the bytes. A line that begins with "open NAME SIZE" is followed by that many
// bytes of a file.
#include "page/engine.hpp"

#include <iostream>
#include <sstream>

int main() {
    tuck::page::Engine engine;
    for (std::string line; std::getline(std::cin, line);) {
        tuck::page::Reply reply;
        if (line.rfind("open ", 0) == 0) {
            std::istringstream words(line.substr(5));
            std::string name;
            std::size_t size = 0;
            words >> name >> size;
            std::string text(size, '\0');
            std::cin.read(text.data(), static_cast<std::streamsize>(size));
            reply = engine.open(name, text);
        } else {
            reply = engine.ask(line);
        }
        std::cout << reply.code << ' ' << reply.bytes.size() << '\n' << reply.bytes << std::flush;
    }
}
