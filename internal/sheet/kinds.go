package sheet

// kinds are the sheets there are, in the order of the packet. What each may
// show of what is private is the type its writer takes; see opened.go.
var kinds []kind

func init() { // not at once: the writers refer to the kinds
	kinds = []kind{
		declare("agree", false, openAgree, agreeing, Orderer),
		declare("measure", false, openMeasure, measuring, Measured),
		declare("mock-up", false, openCard, mockUp, Fitted),
		declare("fit", false, openCard, proposal, Asked),
		declare("labels", false, openLabels, sewnIn, Labelled),
		declare("card", false, openCard, foldedCard, Wearer),
		declare("care-and-fit", true, openFit, careAndFit, Wearer),
		declare("box", true, openNothing, inTheBox, Wearer),
		declare("repairs", false, openNothing, repairs, Repairer, Maker),
		declare("remake", false, openNothing, remake, Maker),
		declare("customs", true, openCustoms, customsFacts, Post),
		declare("after", false, openCard, afterwards, Later),
	}
}
