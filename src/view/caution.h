#ifndef CAUTION_H
#define CAUTION_H

/* The one line that every view someone may act on ends with. */
#define CAUTION_TEXT                                                           \
    "The certificate, the maker's schedule and the local authority decide. "   \
    "Work on brakes, wheels, lifts, extinguishers and tachographs is for "     \
    "people qualified for it."

/* The same of what says which vehicles may be driven. */
#define CAUTION_FIT                                                            \
    "\"Fit\" means only that nothing is known against it. " CAUTION_TEXT

#endif
