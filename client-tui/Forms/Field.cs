using FuelHistory.Contracts;

namespace FuelHistory.Client.Forms;

/// <summary>One thing asked by a form. Name: the member of the body, as a fault's pointer names it; the option of the plain
/// command is made from it. Hint: what may be written, shown while the field is the current one.</summary>
internal abstract class Field(string name, string label, string hint)
{
    public string Name { get; } = name;

    public string Label { get; } = label;

    public string Hint { get; } = hint;

    /// <summary>The option of the plain command: partNumber becomes --part-number.</summary>
    public string Option => "--" + string.Concat(Name.Split('/')[^1].Select(c => char.IsUpper(c) ? "-" + char.ToLowerInvariant(c) : c.ToString()));

    public abstract string Shown { get; }

    /// <summary>What was entered, to see whether anything changed.</summary>
    public virtual string State => Shown;

    /// <summary>Takes a plain text; null when it was taken, else what is wrong with it.</summary>
    public abstract string? Take(string text);

    public bool IsNamedBy(Fault fault) => fault.Pointer == "/" + Name || fault.Pointer.StartsWith("/" + Name + "/", StringComparison.Ordinal);
}

/// <param name="reads">Says how a text is understood; null for plain text.</param>
internal sealed class TypedField(string name, string label, string hint, string text = "", Func<string, ReadBack>? reads = null) : Field(name, label, hint)
{
    public string Text { get; set; } = text;

    /// <summary>How what was written is understood; null where nothing is written or it is plain text.</summary>
    public ReadBack? ReadBack => Value is { } value ? reads?.Invoke(value) : null;

    /// <summary>Null where nothing was written.</summary>
    public string? Value => string.IsNullOrWhiteSpace(Text) ? null : Text.Trim();

    public override string Shown => Text;

    public override string? Take(string text)
    {
        Text = text;
        return null;
    }
}

/// <summary>One of a few words.</summary>
internal sealed class ChoiceField : Field
{
    private readonly IReadOnlyList<NamedThing> _choices;
    private int _at;

    public ChoiceField(string name, string label, string hint, IReadOnlyList<NamedThing> choices, string? chosen = null) : base(name, label, hint)
    {
        _choices = choices;
        _at = Math.Max(0, choices.ToList().FindIndex(choice => choice.Id == chosen));
    }

    public IReadOnlyList<NamedThing> Choices => _choices;

    public string Value => _choices.Count == 0 ? "" : _choices[_at].Id;

    public override string Shown => _choices.Count == 0 ? "" : _choices[_at].Title;

    public void Step(int by) => _at = _choices.Count == 0 ? 0 : (_at + by + _choices.Count) % _choices.Count;

    public override string? Take(string text)
    {
        var (found, wrong) = Names.One(_choices, text);
        if (found is not null) _at = _choices.ToList().IndexOf(found);
        return wrong;
    }

    /// <summary>Choices written like "did-it: did it".</summary>
    public static IReadOnlyList<NamedThing> Words(params string[] words) =>
        [.. words.Select(word => word.Split(": ", 2)).Select(parts => new NamedThing(parts[0], parts.Length > 1 ? parts[1] : parts[0].Replace('-', ' ')))];
}

/// <summary>One or several from a long list. With Answers each picked one carries one of them: "present" or "absent".</summary>
/// <param name="offers">What there is to pick now; what was picked and is offered no longer does not count.</param>
/// <param name="after">The field on which the offer hangs, where it hangs on one.</param>
internal sealed class PickField(string name, string label, string hint, Func<IReadOnlyList<NamedThing>> offers, bool many = false,
    IReadOnlyList<string>? answers = null, IReadOnlyDictionary<string, string>? details = null, PickField? after = null)
    : Field(name, label, hint)
{
    public PickField(string name, string label, string hint, IReadOnlyList<NamedThing> items, bool many = false,
        IReadOnlyList<string>? answers = null, IReadOnlyDictionary<string, string>? details = null)
        : this(name, label, hint, () => items, many, answers, details)
    {
    }

    private readonly Dictionary<string, string> _picked = [];

    public IReadOnlyList<NamedThing> Items => offers();

    /// <summary>After what was picked before there is nothing left to ask here.</summary>
    public bool NotAsked => after?.Id is not null && Items.Count == 0;

    public bool Many { get; } = many;

    public IReadOnlyList<string> Answers { get; } = answers ?? [""];

    /// <summary>More about the marked item, where there is more: an event's question.</summary>
    public string Detail(string id) => details?.GetValueOrDefault(id) ?? "";

    public bool HasDetails => details is not null;

    /// <summary>Ids in the order of the list, with their answer.</summary>
    public IReadOnlyList<(string Id, string Answer)> Picked => [.. Items.Where(item => _picked.ContainsKey(item.Id)).Select(item => (item.Id, _picked[item.Id]))];

    public IReadOnlyList<string> Ids => [.. Picked.Select(picked => picked.Id)];

    public string? Id => Ids.Count > 0 ? Ids[0] : null;

    public override string Shown => string.Join("; ", Picked.Select(picked => Title(picked.Id) + (picked.Answer.Length > 0 ? ": " + picked.Answer : "")));

    public override string State => string.Join(';', Picked.Select(picked => picked.Id + picked.Answer));

    public string? AnswerOf(string id) => _picked.GetValueOrDefault(id);

    /// <summary>Not picked, then each answer in turn, then not picked again.</summary>
    public void Turn(string id)
    {
        var next = _picked.TryGetValue(id, out var answer) ? Answers.ToList().IndexOf(answer) + 1 : 0;
        if (next >= Answers.Count) { _picked.Remove(id); return; }
        if (!Many) _picked.Clear();
        _picked[id] = Answers[next];
    }

    public void Only(string id)
    {
        _picked.Clear();
        _picked[id] = Answers[0];
    }

    public void Pick(string id, string answer = "") => _picked[id] = answer.Length > 0 ? answer : Answers[0];

    /// <summary>Ids or names, separated by commas; with answers "name=absent".</summary>
    public override string? Take(string text)
    {
        // what is written stands for the whole: a correction names all parts, not those to add
        _picked.Clear();
        List<string> wrong = [];
        foreach (var piece in text.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var parts = piece.Split('=', 2, StringSplitOptions.TrimEntries);
            var answer = parts.Length > 1 ? parts[1] : Answers[0];
            var (found, no) = Names.One(Items, parts[0]);
            if (no is not null) wrong.Add(no);
            else if (!Answers.Contains(answer)) wrong.Add($"\"{answer}\" is no answer here; write one of: {string.Join(", ", Answers)}");
            else if (!Many && _picked.Count > 0) wrong.Add("only one can be named here");
            else Pick(found!.Id, answer);
        }
        return wrong.Count == 0 ? null : string.Join("; ", wrong);
    }

    private string Title(string id) => Items.First(item => item.Id == id).Title;
}
