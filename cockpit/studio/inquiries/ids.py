"""The ids of inquiries and of their steps, which what goes out names too."""

from typing import NewType

InquiryId = NewType("InquiryId", int)
InquiryStepId = NewType("InquiryStepId", int)
