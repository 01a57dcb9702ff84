#include "app/catalogue.h"

#include "checks/check_records.h"
#include "forecast/pierce.h"
#include "history/run_record.h"
#include "intercepts/intercept.h"
#include "orientation/orient.h"
#include "paths/locate.h"
#include "settings/read.h"
#include "sheets/missing_letters.h"
#include "site/site.h"
#include "tables/read.h"
#include "veins/vein.h"

#include <algorithm>
#include <string_view>

namespace selvage::app {

std::vector<const base::Check*> catalogue() {
    std::vector<const base::Check*> all;
    for (const auto* room :
         {&settings::checks(), &tables::checks(), &checks::checks(), &paths::checks(), &site::checks(), &orientation::checks(),
          &faults::checks(), &intercepts::checks(), &veins::checks(), &forecast::checks(), &history::checks(), &sheets::checks()})
        all.insert(all.end(), room->begin(), room->end());
    std::sort(all.begin(), all.end(),
              [](const base::Check* a, const base::Check* b) { return std::string_view(a->id) < std::string_view(b->id); });
    return all;
}

}  // namespace selvage::app
