namespace Contract.Tests;

[NeedsEmulator]
public class EmulatedStates() : StateContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedMessages() : MessageContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedLink() : LinkContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedRecords() : RecordContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedStops() : StopContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedHolds() : HoldContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedJobs() : JobContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedStores() : StoreContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedJogging() : JogContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedButton() : ButtonContract(EmulatedUnderTest.Maker);

[NeedsEmulator]
public class EmulatedReferences() : ReferenceContract(EmulatedUnderTest.Maker);
