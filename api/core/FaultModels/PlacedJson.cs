using System.Runtime.CompilerServices;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace FuelHistory.Core.FaultModels;

/// <summary>JSON read into nodes that remember file and line, also after they were moved into another tree.</summary>
internal sealed class PlacedJson
{
    private readonly ConditionalWeakTable<JsonNode, Place> _places = [];

    /// <exception cref="FaultModelException">Not JSON, a member named twice, or not an object.</exception>
    public JsonObject Read(ModelText text)
    {
        byte[] bytes = Encoding.UTF8.GetBytes(text.Json);
        var reader = new Utf8JsonReader(bytes);
        var lines = new LineCount(text.Name, bytes);
        try
        {
            reader.Read();
            JsonNode? node = Value(ref reader, lines);
            if (reader.Read() || node is not JsonObject read)
            {
                throw new FaultModelException($"{lines.At(0)}: The file must hold one JSON object.");
            }

            return read;
        }
        catch (JsonException e)
        {
            throw new FaultModelException($"{new Place(text.Name, (int)(e.LineNumber ?? 0) + 1)}: {Plain(e)}");
        }
    }

    /// <summary>What was made of something that was read stands where that stood.</summary>
    public void Put(JsonNode node, Place place) => _places.AddOrUpdate(node, place);

    public Place? Of(JsonNode? node) => node is not null && _places.TryGetValue(node, out Place? place) ? place : null;

    /// <summary>The parser's message without the position that it adds.</summary>
    public static string Plain(JsonException e)
    {
        int cut = e.Message.IndexOf(" Path: $", StringComparison.Ordinal);
        cut = cut < 0 ? e.Message.IndexOf(" LineNumber:", StringComparison.Ordinal) : cut;
        return cut < 0 ? e.Message : e.Message[..cut];
    }

    private JsonNode? Value(ref Utf8JsonReader reader, LineCount lines)
    {
        Place place = lines.At(reader.TokenStartIndex);
        JsonNode? node = reader.TokenType switch
        {
            JsonTokenType.StartObject => Members(ref reader, lines),
            JsonTokenType.StartArray => Entries(ref reader, lines),
            JsonTokenType.Null => null,
            _ => JsonValue.Create(JsonElement.ParseValue(ref reader)), // an element keeps the figure as it was written
        };
        if (node is not null)
        {
            _places.Add(node, place);
        }

        return node;
    }

    private JsonObject Members(ref Utf8JsonReader reader, LineCount lines)
    {
        JsonObject members = [];
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            string name = reader.GetString()!;
            Place place = lines.At(reader.TokenStartIndex);
            reader.Read();
            if (!members.TryAdd(name, Value(ref reader, lines)))
            {
                throw new FaultModelException($"{place}: The member \"{name}\" stands twice in one object.");
            }
        }

        return members;
    }

    private JsonArray Entries(ref Utf8JsonReader reader, LineCount lines)
    {
        JsonArray entries = [];
        while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
        {
            entries.Add(Value(ref reader, lines));
        }

        return entries;
    }

    /// <summary>Positions come in rising order, so that the newlines are counted once.</summary>
    private sealed class LineCount(string file, byte[] bytes)
    {
        private int _line = 1;
        private int _seen;

        public Place At(long position)
        {
            for (; _seen < position; _seen++)
            {
                _line += bytes[_seen] == (byte)'\n' ? 1 : 0;
            }

            return new Place(file, _line);
        }
    }
}
