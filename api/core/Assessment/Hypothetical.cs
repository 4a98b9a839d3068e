namespace FuelHistory.Core.Assessment;

/// <summary>A finding about a world that was not: the car as it would be with some parts or conditions otherwise than in a stretch (MODEL.md 4,
/// trials and own observations of a side).</summary>
/// <param name="Id">Of the finding.</param>
/// <param name="World">The stretch that the world is made from.</param>
/// <param name="Events">What the complaint consisted of then: event and cells, the main one first.</param>
internal abstract record Hypothetical(string Id, int World, IReadOnlyList<(EventIndex Event, ulong Cells)> Events) : Evidence([Id])
{
    /// <summary>Parts on the car in that world.</summary>
    public abstract PartCopy?[] Parts(Worlds worlds);

    /// <summary>Conditions that are right there for certain.</summary>
    public virtual IReadOnlyList<int> Forced => [];

    public IEnumerable<(int, int)> AskedIn(ModelIndex index, int number) => Events.SelectMany(e => Conditions(index, e.Event, e.Cells, number));

    /// <summary>The same without a variable for what was put in for the moment: its chance to be bad lies in the numbers.</summary>
    public virtual Hypothetical Plain => this;

    /// <summary>Arrows that only this investigation has, entered with the finding whatever becomes of it: event and arrow.</summary>
    public virtual IReadOnlyList<(int Event, EventGroup Arrow)> Arrows => [];

    /// <summary>How much the finding is likely to decide; the least is the first to be taken out of a network that is too large.</summary>
    public virtual int Decides => 0;

    /// <summary>The same with all events right in its world for certain, and what its result weighs then; null: nothing of the kind.</summary>
    public virtual (Hypothetical Right, double Weight)? AllRight => null;

    /// <summary>The arrows without what the finding says.</summary>
    public SupposedEvidence ArrowsAlone() => new(Id, World, [], Arrows, Events.Select(e => e.Event.Index).ToHashSet(), -1, 0);

    /// <summary>The part whose being right is what the finding is about; -1: none.</summary>
    public virtual int Tried => -1;

    /// <summary>Weight of what was found where all events are right in its world with this chance, and stay as they are otherwise.</summary>
    public virtual double Weight(double right) => 1;

    /// <summary>Enters the finding: what it says of the events in its world, number <paramref name="number"/>.</summary>
    public abstract void Suppose(EvidenceCircuit circuit, int number, Omitted? without);

    public override IEnumerable<(int World, int Condition)> Asked(ModelIndex index) => [];

    public override void Enter(EvidenceCircuit circuit, Omitted? without)
    {
        // entered with the events, by Suppose
    }

    public override Evidence? AfterFirst() => World == 0 ? null : this with { World = World - 1 };

    public override IEnumerable<Otherwise> Otherwise() => [];

    /// <summary>A variable of three states: nothing, the main event right, all right; the states weigh as given.</summary>
    /// <param name="silent">Variable in whose state 0 nothing is said at all; -1: none.</param>
    protected void Demand(EvidenceCircuit circuit, int number, int acting, int silent, double nothing, double main, double all)
    {
        int choice = circuit.Circuit.Network.AddVariable(3);
        circuit.Circuit.Network.AddFactor(silent < 0 ? [choice] : [silent, choice], silent < 0 ? [nothing, main, all] : [1, 0, 0, nothing, main, all]);
        for (int e = 0; e < Events.Count; e++)
        {
            circuit.Ask(Events[e].Event.Index, Answer.When(choice, e == 0 ? 1 : 2, number, Events[e].Cells, acting));
        }
    }
}

/// <summary>Own observation about a side of the car: more or less likely if putting right all its parts would end the events.</summary>
/// <param name="Side">Parts of that side.</param>
/// <param name="Factor">Above 1 for, below 1 against.</param>
internal sealed record SideEvidence(string Id, int World, IReadOnlyList<(EventIndex Event, ulong Cells)> Events, IReadOnlySet<int> Side, double Factor)
    : Hypothetical(Id, World, Events)
{
    public override PartCopy?[] Parts(Worlds worlds) => [.. worlds.Stretches[World].Select((copy, part) => Side.Contains(part) ? null : copy)];

    public override void Suppose(EvidenceCircuit circuit, int number, Omitted? without)
    {
        bool counts = !Omitted.Has(without, Id);
        Demand(circuit, number, -1, -1, 1, 0, counts ? Factor - 1 : 0);
    }
}
