namespace FuelHistory.Core.Assessment;

/// <summary>In which order checks and trials that pay are proposed (MODEL.md 8).</summary>
internal enum NextOrder
{
    /// <summary>What saves most for its time.</summary>
    PerMinute,

    /// <summary>What saves most.</summary>
    Saving,

    /// <summary>What saves most for its time, short checks valued with the best second check after each outcome.</summary>
    Ahead,

    /// <summary>What saves most, short checks valued so.</summary>
    AheadSaving,
}

/// <summary>What the advice is made by. All but the usual ones are there to be compared in the simulation.</summary>
/// <param name="Beforehand">Repeats, looks before work, and nothing that is answered already.</param>
/// <param name="Bundles">Parts that go bad together in one labour.</param>
internal sealed record AdviceRules(NextOrder Order, bool Beforehand, bool Bundles)
{
    public static readonly AdviceRules Usual = new(NextOrder.PerMinute, true, true);
}
